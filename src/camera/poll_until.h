#pragma once

#include <algorithm>
#include <chrono>
#include <memory>
#include <thread>

#include "picture/frame.h"

namespace tonemend {

/// Asks every 50 ms, and at least once, until something comes or `patience` is over.
template <typename Ask>
std::shared_ptr<const Frame> poll_until(std::chrono::milliseconds patience, Ask ask) {
    using Clock = std::chrono::steady_clock;
    const auto end = Clock::now() + patience;
    for (;;) {
        if (auto frame = ask()) return frame;
        const auto left = end - Clock::now();
        if (left <= Clock::duration::zero()) return nullptr;
        std::this_thread::sleep_for(std::min<Clock::duration>(left, std::chrono::milliseconds(50)));
    }
}

}  // namespace tonemend
