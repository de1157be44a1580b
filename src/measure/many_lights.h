#pragma once

#include <vector>

#include "measure/comparison.h"
#include "measure/seen_region.h"

namespace tonemend {

/// Compares two regions of the first picture, with what the other pictures tell of camera and surfaces where
/// that makes the comparison better; else with the first picture alone, and the warning
/// `further-lights-no-help` says what they could have gained. `cameras` is what cameras in general see under
/// these lights in their order. Colours are those under light one. Throws InputError: see compare_regions and
/// match_region, fewer than three coloured patches on the card, and colour samples, which are for one light.
Comparison compare_under_lights(const std::vector<PictureUnderLight>& pictures, const Region& original,
                                const Region& repair, const std::vector<std::vector<KnownSurface>>& cameras,
                                double tolerance = default_tolerance);

}  // namespace tonemend
