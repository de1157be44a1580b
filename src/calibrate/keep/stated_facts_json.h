#pragma once

#include <nlohmann/json_fwd.hpp>

#include "calibrate/keep/json_part.h"
#include "calibrate/stated_facts.h"

namespace tonemend {

/// An object with `black_level` (null: not stated), `light` (as parse_light takes it; null: not stated),
/// `colourants` ("same", "earth", "other") and, when there are some, `samples` (each as parse_sample takes
/// it).
nlohmann::ordered_json stated_json(const StatedFacts& facts);
/// A member that is missing was not stated. Throws InputError as JsonPart does, also for a light, a sample or
/// a kind of colourants that is none.
StatedFacts to_stated_facts(const JsonPart& json);

}  // namespace tonemend
