#pragma once

#include <optional>

#include <opencv2/videoio.hpp>

#include "camera/plugin/tonemend_video.h"

namespace tonemend {

/// A control's value as the interface has it; absent when the device has no such control.
std::optional<double> read_control(cv::VideoCapture& capture, TonemendVideoControl control);
bool write_control(cv::VideoCapture& capture, TonemendVideoControl control, double value);

}  // namespace tonemend
