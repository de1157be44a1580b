#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "calibrate/keep/json_part.h"
#include "calibrate/keep/kept_calibration.h"

namespace tonemend {

/// The "tonemend.calibration/1" object that calibration/README.md describes. Numbers are exact.
nlohmann::ordered_json calibration_json(const KeptCalibration& kept);

/// The calibration in an object of this or an earlier version. Throws InputError without a file name ahead:
/// another kind of object, a newer version, or damaged, with the part that is.
KeptCalibration to_kept_calibration(const JsonPart& json);

}  // namespace tonemend
