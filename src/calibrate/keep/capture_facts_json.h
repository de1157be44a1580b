#pragma once

#include <nlohmann/json_fwd.hpp>

#include "calibrate/keep/json_part.h"
#include "picture/frame.h"

namespace tonemend {

/// What the camera wrote about an exposure, as an object; what is unknown has no member.
nlohmann::ordered_json facts_json(const CaptureFacts& facts);
/// Throws InputError as JsonPart does.
CaptureFacts to_facts(const JsonPart& json);

}  // namespace tonemend
