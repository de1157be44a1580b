#include "camera/plugin/controls.h"

namespace tonemend {

namespace {

// V4L2's exposure modes, which OpenCV hands through (linux/v4l2-controls.h).
constexpr double exposure_manual = 1;
constexpr double exposure_aperture_priority = 3;

int property_of(TonemendVideoControl control) {
    switch (control) {
        case tonemend_video_exposure_automatic:
            return cv::CAP_PROP_AUTO_EXPOSURE;
        case tonemend_video_exposure:
            return cv::CAP_PROP_EXPOSURE;
        case tonemend_video_gain:
            return cv::CAP_PROP_GAIN;
        case tonemend_video_white_balance_automatic:
            return cv::CAP_PROP_AUTO_WB;
        case tonemend_video_white_balance_temperature:
            return cv::CAP_PROP_WB_TEMPERATURE;
        case tonemend_video_focus_automatic:
            return cv::CAP_PROP_AUTOFOCUS;
        case tonemend_video_focus:
            return cv::CAP_PROP_FOCUS;
    }
    return -1;
}

}  // namespace

std::optional<double> read_control(cv::VideoCapture& capture, TonemendVideoControl control) {
    const double value = capture.get(property_of(control));
    // The backend answers −1 for what the driver does not know.
    if (value < 0) return std::nullopt;
    if (control != tonemend_video_exposure_automatic) return value;
    return value == exposure_manual ? 0 : 1;
}

bool write_control(cv::VideoCapture& capture, TonemendVideoControl control, double value) {
    if (control == tonemend_video_exposure_automatic)
        value = value == 0 ? exposure_manual : exposure_aperture_priority;
    return capture.set(property_of(control), value);
}

}  // namespace tonemend
