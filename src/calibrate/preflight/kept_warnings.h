#pragma once

#include <vector>

#include "calibrate/keep/kept_calibration.h"

namespace tonemend {

/// What speaks against reading `frame`, calibrated on its own card, with the characterisation that
/// `inputs` keep.
std::vector<Warning> warn_of_kept(const Frame& frame, const Calibration& calibration,
                                  const CalibrationInputs& inputs);

}  // namespace tonemend
