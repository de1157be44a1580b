#include "record/store/uid.h"

#include <fmt/format.h>

#include <chrono>
#include <cstdint>
#include <mutex>
#include <random>

namespace tonemend {

std::string new_uid() {
    static std::mutex mutex;
    static std::uint64_t last = 0;
    const auto now = static_cast<std::uint64_t>(std::chrono::duration_cast<std::chrono::milliseconds>(
                                                    std::chrono::system_clock::now().time_since_epoch())
                                                    .count());
    std::uint64_t stamp = 0;
    {
        // Milliseconds and, below them, a counter of 12 bits that goes on when the clock stands or is put
        // back (RFC 9562, 6.2, method 1).
        const std::lock_guard lock(mutex);
        last = std::max(last + 1, now << 12);
        stamp = last;
    }
    std::random_device entropy;
    const std::uint64_t random = (static_cast<std::uint64_t>(entropy()) << 32) | entropy();
    return fmt::format("{:08x}-{:04x}-7{:03x}-{:04x}-{:012x}", stamp >> 28, (stamp >> 12) & 0xffff,
                       stamp & 0xfff, 0x8000 | ((random >> 48) & 0x3fff), random & 0xffffffffffff);
}

}  // namespace tonemend
