#pragma once

#include <cstddef>
#include <vector>

#include "calibrate/card/card.h"
#include "picture/frame.h"
#include "picture/geometry.h"
#include "picture/region.h"

namespace tonemend {

/// What a picture shows of one patch of the card, in the frame's own linear light.
struct PatchReading {
    Patch patch;
    Region area;               ///< the inner part that was read, in picture pixels
    Vector3 mean{};            ///< linear R, G, B
    Vector3 spread{};          ///< standard deviation of the pixels
    Vector3 mean_u{};          ///< standard uncertainty of the mean: noise, texture, rounding, compression
    std::size_t pixels = 0;    ///< that entered the mean
    std::size_t outliers = 0;  ///< left out: dust, scratches, glints
    std::size_t clipped = 0;   ///< left out: at the end of the camera's range
    Vector3 light{1, 1, 1};    ///< relative light at the patch by the flat field; 1 at the card's middle
    double slope_x = 0;        ///< relative change of brightness per picture pixel, across
    double slope_y = 0;        ///< and down
    double slope_u = 0;        ///< standard uncertainty of either

    double clipped_share() const;
};

/// Reads the pixels of `area`, which must lie in the picture; `patch` of the result is empty.
PatchReading read_area(const Frame& frame, const Region& area);

/// Reads each patch of `card`, whose corners lie at `corners` in the picture. The outer 15 % of a patch on
/// each side is not read: blur and a card a little off do no harm. Throws InputError when a patch covers
/// fewer than 16 pixels or lies outside.
std::vector<PatchReading> read_patches(const Frame& frame, const Card& card, const Quad& corners);

}  // namespace tonemend
