#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace tonemend {

/// A video device that can capture pictures.
struct CameraDevice {
    std::filesystem::path node;  ///< "/dev/video0"
    std::string name;            ///< as the driver calls it
};

/// The video devices of Video4Linux in /dev that can capture, by number. Nodes that cannot be opened are left
/// out.
std::vector<CameraDevice> list_cameras();

}  // namespace tonemend
