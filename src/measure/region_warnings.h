#pragma once

#include <vector>

#include "measure/comparison.h"

namespace tonemend {

/// What the two regions say against the comparison: clipping, glare, light that changes between them, too
/// little wood.
std::vector<Warning> warn_of_regions(const Calibration& calibration, const Comparison& comparison);

}  // namespace tonemend
