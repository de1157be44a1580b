#pragma once

#include <optional>

#include "calibrate/calibration.h"

namespace tonemend {

/// How much the neutral steps are coloured by amounts that change with their lightness: the largest C*ab of a
/// step after each channel went through green's tone curve and one gain of its own, as one camera curve and a
/// white balance would have it. The gains' own small black offsets are allowed for. Nothing for raw, and for
/// cards of too few steps to show a curve.
std::optional<double> tint_of_steps(const Frame& frame, const Calibration& calibration);

/// "steps-tinted": a picture style that tints lights and shadows differently. The curves of the channels make
/// the greys grey again, but a colour as light as a step was tinted through its luminance, not through its
/// channels: it stays off by about the tint. Saturation cannot be seen on neutral steps: see colours_style.h.
std::optional<Warning> warn_of_tint(const Frame& frame, const Calibration& calibration);

}  // namespace tonemend
