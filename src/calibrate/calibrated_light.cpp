#include "calibrate/calibrated_light.h"

#include "calibrate/flat/flat_grid.h"

namespace tonemend {

LinearPicture calibrated_light(const Frame& frame, const Calibration& calibration, const PixelRect& window) {
    const ChannelCurves curves = calibration.channel_curves();
    LinearPicture picture = linear_light(frame, window, &curves);
    if (calibration.flat_field) even_out(picture, *calibration.flat_field);
    return picture;
}

}  // namespace tonemend
