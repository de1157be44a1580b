#pragma once

#include <nlohmann/json_fwd.hpp>

#include "measure/second_light.h"

namespace tonemend {

/// The pair under its lights as the "tonemend.second-light/1" object that DEVELOPERS.md describes; each
/// light's own comparison in it is a "tonemend.comparison/1". Rounded to 4 decimals.
nlohmann::ordered_json to_json(const PairUnderLights& pair);

}  // namespace tonemend
