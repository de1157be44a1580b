#pragma once

#include "measure/gloss_split.h"

namespace tonemend {

/// Fills shimmer and its interval from the squares and their gloss; 0 with fewer than 32 squares that every
/// picture shows.
void measure_shimmer(const GlossCells& grid, GlossSplit& split);

}  // namespace tonemend
