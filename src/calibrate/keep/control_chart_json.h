#pragma once

#include <nlohmann/json_fwd.hpp>

#include "calibrate/keep/control_chart.h"
#include "calibrate/keep/json_part.h"

namespace tonemend {

/// The chart as an object; numbers are exact.
nlohmann::ordered_json chart_json(const ControlChart& chart);
/// Throws InputError as JsonPart does.
ControlChart to_chart(const JsonPart& json);

}  // namespace tonemend
