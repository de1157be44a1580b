#pragma once

#include <array>
#include <nlohmann/json_fwd.hpp>

#include "colour/lab.h"

namespace tonemend {

/// A number as it is written into JSON: four digits behind the point, no minus before a zero.
double rounded(double value);
/// Three such numbers.
nlohmann::ordered_json numbers_json(const std::array<double, 3>& values);
/// L*, a* and b* likewise.
nlohmann::ordered_json lab_json(const Lab& lab);

}  // namespace tonemend
