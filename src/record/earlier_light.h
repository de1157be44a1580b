#pragma once

#include <optional>
#include <vector>

#include "calibrate/preflight/light_comparison.h"

namespace tonemend {

/// What speaks against holding a reading in the light `now` against the earlier one of that number in the
/// same job: compare_light's warnings, which then name that reading. Empty when it was kept without its
/// light.
std::vector<Warning> warn_of_other_light(int number, const std::optional<PictureLight>& then,
                                         const PictureLight& now);

}  // namespace tonemend
