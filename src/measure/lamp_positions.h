#pragma once

#include <string>
#include <vector>

#include "calibrate/calibration.h"
#include "calibrate/card/find_card.h"
#include "measure/region_pixels.h"

namespace tonemend {

/// A picture of the scene with the lamp in one of several places, calibrated on its own card.
struct LampPosition {
    const Frame* frame = nullptr;  ///< not owned
    FoundCard card;
    Calibration calibration;
};

/// One region as all pictures show it, laid over picture one pixel by pixel.
struct LaidOver {
    std::vector<RegionPixels> pixels;  ///< a picture each, on the grid of picture one
    double shift_px = 0;               ///< the worst that registration leaves
};

/// Throws InputError: fewer than two pictures; two that are the same; two card frames.
void require_lamp_positions(const std::vector<LampPosition>& positions);

/// The map from picture pixels of `first` to those of `other`, as far as the cards tell: identity where they
/// lie within 1.5 pixels of each other over the whole picture (the camera stood still).
Matrix3 map_between(const LampPosition& first, const LampPosition& other);

/// Lays `region` of the first picture over the others: by identity where the card frames lie within 1.5
/// pixels of each other and the grain within 0.1 (the camera stood still; nothing is resampled then), else by
/// the card frames and the grain (see match_region). Throws InputError: see match_region and collect_pixels;
/// pictures that lie more than 2 pixels apart after that; wood whose grain is not in the other picture.
LaidOver lay_over(const std::vector<LampPosition>& positions, const Region& region, const std::string& role);

}  // namespace tonemend
