#pragma once

#include "calibrate/keep/json_part.h"
#include "calibrate/keep/kept_calibration.h"

namespace tonemend {

/// Version 1 of the calibration object. Throws InputError as JsonPart does.
KeptCalibration read_calibration_1(const JsonPart& json);

}  // namespace tonemend
