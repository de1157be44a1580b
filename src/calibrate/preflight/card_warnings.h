#pragma once

#include <vector>

#include "calibrate/calibration.h"

namespace tonemend {

/// What the card and the file say against the reading, most harmful first; its sharpness is looked at
/// by warn_of_blur.
std::vector<Warning> warn_of_card(const Frame& frame, const Calibration& calibration);

}  // namespace tonemend
