#pragma once

#include <vector>

#include "calibrate/calibration.h"

namespace tonemend {

/// What the card frame around the card says against the reading: its paper of the light, its markers of
/// the tilt. Where `calibration` already warns of blur, the paper holds the markers' black, and nothing is
/// told from it.
std::vector<Warning> warn_of_card_frame(const Frame& frame, const FoundCard& found,
                                        const Calibration& calibration);

}  // namespace tonemend
