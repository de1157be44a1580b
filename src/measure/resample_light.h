#pragma once

#include "calibrate/calibration.h"
#include "colour/matrix3.h"
#include "picture/linear_picture.h"

namespace tonemend {

/// Calibrated light of `other` on the grid of `window` in another picture, whose pixels `to_other` takes to
/// those of `other` (cubic; nothing is resampled by the identity). A pixel that borrows from a clipped one,
/// or lies outside `other`, is clipped.
LinearPicture resample_light(const Frame& other, const Calibration& calibration, const Matrix3& to_other,
                             const PixelRect& window);

}  // namespace tonemend
