#include "picture/opaque.h"

#include <cstdint>
#include <cstring>
#include <limits>

namespace tonemend {
namespace {

template <typename Sample>
bool drop(std::byte* samples, std::size_t pixels) {
    constexpr Sample full =
        std::numeric_limits<Sample>::is_integer ? std::numeric_limits<Sample>::max() : Sample{1};
    bool opaque = true;
    for (std::size_t i = 0; i < pixels; ++i) {
        Sample pixel[4];
        std::memcpy(pixel, samples + i * sizeof pixel, sizeof pixel);
        opaque &= pixel[3] == full;
        std::memcpy(samples + i * 3 * sizeof(Sample), pixel, 3 * sizeof(Sample));
    }
    return opaque;
}

}  // namespace

bool drop_opaque_alpha(std::byte* samples, std::size_t pixels, std::size_t bytes_per_sample) {
    switch (bytes_per_sample) {
        case 1:
            return drop<std::uint8_t>(samples, pixels);
        case 2:
            return drop<std::uint16_t>(samples, pixels);
        default:
            return drop<float>(samples, pixels);
    }
}

}  // namespace tonemend
