#pragma once

#include <vector>

#include "calibrate/calibration.h"

namespace tonemend {

/// What the card and the file say against the reading, most harmful first.
std::vector<Warning> warn_of_card(const Frame& frame, const Calibration& calibration);

}  // namespace tonemend
