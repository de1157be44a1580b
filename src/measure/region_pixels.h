#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "calibrate/calibration.h"
#include "picture/linear_picture.h"
#include "picture/region.h"

namespace tonemend {

enum class PixelState : std::uint8_t { outside, used, clipped, glare };

/// The pixels of one region in calibrated linear light (1 for the perfect diffuser), and which of them count.
struct RegionPixels {
    LinearPicture picture;          ///< the region's bounds
    std::vector<PixelState> state;  ///< one a pixel of the bounds
    std::size_t used = 0;
    std::size_t clipped = 0;
    std::size_t glare = 0;

    std::size_t inside() const { return used + clipped + glare; }
};

/// The least number of pixels a region must have.
inline constexpr std::size_t least_region_pixels = 64;

/// Collects the region's pixels; clipped ones are marked. Throws InputError, with `role` ("--repair") in its
/// text: outside the picture, fewer than least_region_pixels pixels, every pixel clipped.
RegionPixels collect_pixels(const Frame& frame, const Calibration& calibration, const Region& region,
                            const std::string& role);

/// Calls visit(column, row, rgb) for every used pixel, in order of rows.
template <typename Visit>
void for_each_used(const RegionPixels& pixels, Visit visit) {
    const int width = pixels.picture.window.width, height = pixels.picture.window.height;
    const float* rgb = pixels.picture.rgb.data();
    const PixelState* state = pixels.state.data();
    for (int row = 0; row < height; ++row) {
        for (int column = 0; column < width; ++column, rgb += 3, ++state) {
            if (*state == PixelState::used) visit(column, row, rgb);
        }
    }
}

}  // namespace tonemend
