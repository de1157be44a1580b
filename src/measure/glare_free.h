#pragma once

#include "measure/gloss_cells.h"
#include "measure/gloss_split.h"

namespace tonemend {

/// The region's pixels as the mean of the pictures with each square's gloss taken off. A pixel that is
/// clipped in one picture is the mean of the others; one that is clipped in all of them counts as clipped.
RegionPixels take_gloss_off(const LaidOver& laid, const GlossCells& grid, const GlossSplit& split);

/// Throws InputError with `role` in its text when fewer than least_region_pixels pixels are used.
void require_enough(const RegionPixels& pixels, const Frame& frame, const std::string& role);

}  // namespace tonemend
