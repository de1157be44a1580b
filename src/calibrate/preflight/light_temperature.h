#pragma once

#include <optional>

#include "calibrate/calibration.h"

namespace tonemend {

/// Where warm light begins. A lamp with little blue shows a camera less of what colourants do there; the
/// limit is common practice, no source.
inline constexpr double warm_light_kelvin = 4500;

/// The correlated colour temperature of the card's light in K: as stated, else as the camera's own matrix has
/// it. Only raw can tell: other files are balanced already. Nothing for those, and for lights to which no
/// temperature belongs.
std::optional<double> temperature_of_light(const Frame& frame, const Calibration& calibration);

/// The same as the camera's own matrix has it, whatever was stated.
std::optional<double> temperature_of_white(const Frame& frame, const Calibration& calibration);

/// "light-warm" for a light of `kelvin`, whoever stated it.
std::optional<Warning> warn_of_temperature(double kelvin);

}  // namespace tonemend
