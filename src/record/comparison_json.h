#pragma once

#include <nlohmann/json_fwd.hpp>

#include "measure/comparison.h"

namespace tonemend {

/// The comparison as the "tonemend.comparison/1" object that DEVELOPERS.md describes. Colours are CIELAB (D50, 2°), rounded to 4 decimals.
nlohmann::ordered_json to_json(const Calibration& calibration, const Comparison& comparison);

}  // namespace tonemend
