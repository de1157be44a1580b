#pragma once

#include <nlohmann/json_fwd.hpp>

#include "measure/gloss.h"

namespace tonemend {

/// The result as the "tonemend.gloss/1" object that DEVELOPERS.md describes; its "comparison" is the
/// "tonemend.comparison/1" object of the reading without gloss.
nlohmann::ordered_json to_json(const std::vector<LampPosition>& positions, const GlossResult& result);

}  // namespace tonemend
