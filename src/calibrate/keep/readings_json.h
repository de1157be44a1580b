#pragma once

#include <nlohmann/json_fwd.hpp>
#include <vector>

#include "calibrate/keep/json_part.h"
#include "calibrate/tone/patch_reading.h"

namespace tonemend {

/// Patches and what was read on them, as a list of objects; numbers are exact.
nlohmann::ordered_json readings_json(const std::vector<PatchReading>& readings);
/// Throws InputError as JsonPart does.
std::vector<PatchReading> to_readings(const JsonPart& json);

}  // namespace tonemend
