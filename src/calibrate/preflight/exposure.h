#pragma once

#include <optional>

#include "calibrate/calibration.h"

namespace tonemend {

/// What the picture records, in its decoded linear light, for the perfect diffuser under the card's light, in
/// its brightest channel: 1 is the end of the camera's range.
double recorded_white(const Calibration& calibration);

/// "underexposed": white at less than a quarter of the range, two stops under. Photon noise is then twice as
/// large and a code of eight bits twice as coarse against the light; more so in the blue of brown wood.
std::optional<Warning> warn_of_underexposure(const Calibration& calibration);

}  // namespace tonemend
