#pragma once

#include <nlohmann/json_fwd.hpp>

#include "calibrate/keep/json_part.h"
#include "calibrate/preflight/light_comparison.h"

namespace tonemend {

/// The "picture_light" object that DEVELOPERS.md describes; numbers are exact.
nlohmann::ordered_json picture_light_json(const PictureLight& light);
/// Throws InputError as JsonPart does.
PictureLight to_picture_light(const JsonPart& json);

}  // namespace tonemend
