#include "measure/region_pixels.h"

#include <fmt/format.h>

#include "calibrate/calibrated_light.h"
#include "picture/input_error.h"

namespace tonemend {

RegionPixels collect_pixels(const Frame& frame, const Calibration& calibration, const Region& region,
                            const std::string& role) {
    require_inside(region, frame.width, frame.height, fmt::format("{}: {}", frame.name, role));
    const PixelRect window = bounds(region);
    RegionPixels pixels;
    pixels.picture = calibrated_light(frame, calibration, window);
    pixels.state.assign(pixels.picture.clipped.size(), PixelState::outside);
    for (const Span& span : spans(region)) {
        const auto start =
            static_cast<std::size_t>(span.row - window.y) * static_cast<std::size_t>(window.width);
        for (int x = span.first; x < span.last; ++x) {
            const std::size_t i = start + static_cast<std::size_t>(x - window.x);
            const bool clipped = pixels.picture.clipped[i] != 0;
            pixels.state[i] = clipped ? PixelState::clipped : PixelState::used;
            ++(clipped ? pixels.clipped : pixels.used);
        }
    }
    if (pixels.inside() < least_region_pixels) {
        throw InputError(fmt::format(
            "{}: {}: the region holds {} pixel{}, too few to read; choose one of at least {} pixels (8 × 8)",
            frame.name, role, pixels.inside(), pixels.inside() == 1 ? "" : "s", least_region_pixels));
    }
    if (pixels.used < least_region_pixels) {
        throw InputError(
            fmt::format("{}: {}: {} of the region's {} pixels are clipped (pure white or pure black); change "
                        "the exposure "
                        "and take the picture again",
                        frame.name, role, pixels.clipped, pixels.inside()));
    }
    return pixels;
}

}  // namespace tonemend
