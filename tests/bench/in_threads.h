#pragma once

#include <atomic>
#include <cstddef>
#include <exception>
#include <thread>
#include <vector>

namespace tonemend::bench {

/// work(0) … work(count − 1), shared between `threads` threads in any order: each must write to a place of
/// its own. The first exception ends the sharing and is thrown here.
template <typename Work>
void in_threads(std::size_t threads, std::size_t count, Work work) {
    std::atomic<std::size_t> next{0};
    std::vector<std::exception_ptr> failures(threads);
    const auto run = [&](std::size_t thread) {
        try {
            for (std::size_t i = next++; i < count; i = next++) work(i);
        } catch (...) {
            failures[thread] = std::current_exception();
            next = count;
        }
    };
    {
        std::vector<std::jthread> others;
        for (std::size_t thread = 1; thread < threads; ++thread) others.emplace_back(run, thread);
        run(0);
    }
    for (const std::exception_ptr& failure : failures)
        if (failure) std::rethrow_exception(failure);
}

}  // namespace tonemend::bench
