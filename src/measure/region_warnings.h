#pragma once

#include <vector>

#include "measure/comparison.h"

namespace tonemend {

/// What the two regions say against the comparison: overlap, the card under them, more than one surface in
/// them, colours beyond the card's steps, clipping, glare, light that changes between them, too little wood.
std::vector<Warning> warn_of_regions(const Calibration& calibration, const Comparison& comparison);

}  // namespace tonemend
