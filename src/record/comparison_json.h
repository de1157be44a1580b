#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "measure/comparison.h"

namespace tonemend {

/// The comparison as the "tonemend.comparison/1" object that DEVELOPERS.md describes. Colours are CIELAB
/// (D50, 2°), rounded to 4 decimals.
nlohmann::ordered_json to_json(const Calibration& calibration, const Comparison& comparison);

/// The object as indented UTF-8 text that ends in a newline. What is not UTF-8, such as an old file name,
/// becomes U+FFFD.
std::string to_text(const nlohmann::ordered_json& json);

}  // namespace tonemend
