#pragma once

#include "calibrate/calibration.h"
#include "picture/linear_picture.h"

namespace tonemend {

/// The part of `frame` inside `window` (which must lie in the frame) as calibrated linear light, 1 for the
/// perfect diffuser, evened out by the calibration's flat field if it has one: what readings are made from.
LinearPicture calibrated_light(const Frame& frame, const Calibration& calibration, const PixelRect& window);

}  // namespace tonemend
