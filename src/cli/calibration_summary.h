#pragma once

#include <string>

#include "calibrate/calibration.h"
#include "picture/frame.h"

namespace tonemend {

/// What a calibration is worth on brown wood beside the card, evenly lit and without grain: half widths of
/// 95 % intervals.
struct CalibrationWorth {
    double lab_u95 = 0;     ///< of L*, a* and b* of one region, the largest
    double de2000_u95 = 0;  ///< of a difference of ΔE2000 2 between two regions
};

CalibrationWorth judge_worth(const Calibration& calibration);

/// What was fitted, for a terminal: grey steps, tones, each patch with what is left, warnings, the worth.
std::string summarise_calibration(const Frame& frame, const Calibration& calibration);

}  // namespace tonemend
