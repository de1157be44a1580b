#pragma once

#include <memory>
#include <string>

#include "camera/source.h"

namespace tonemend {

/// The source that a text names: "practice" (the practice bench), "camera" (the first video device that can
/// capture), a device node
/// ("/dev/video0"), an address ("http://…", "https://…", "rtsp://…", "rtsps://…"), a folder, a video file or
/// a still; "~/" is the home folder. Nothing is opened or decoded yet. Throws InputError: no camera, no such
/// file, an address of another kind.
std::shared_ptr<Source> open_source(const std::string& text);

}  // namespace tonemend
