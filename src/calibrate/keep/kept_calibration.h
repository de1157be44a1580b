#pragma once

#include <string>

#include "calibrate/calibration.h"
#include "calibrate/keep/control_chart.h"
#include "picture/frame.h"

namespace tonemend {

/// A calibration that was kept: the fit itself, all that is needed to repeat it, and how the camera has read
/// a check patch since.
struct KeptCalibration {
    std::string program;  ///< what made it: "tonemend 0.1.0"
    std::string made;     ///< "2026-11-25T10:09:00Z"
    Frame picture;        ///< that was calibrated on, without its samples
    CalibrationInputs inputs;
    Calibration fit;
    ControlChart chart;
};

/// What calibrate_on_readings makes of what was kept; equal to `fit` up to the rounding of the encoding's
/// profile. Throws InputError likewise.
Calibration fit_again(const KeptCalibration& kept);

}  // namespace tonemend
