#include "camera/list_cameras.h"

#include <fcntl.h>
#include <linux/videodev2.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <optional>

#include "picture/text_line.h"

namespace tonemend {

namespace {

namespace fs = std::filesystem;

std::optional<CameraDevice> ask_device(const fs::path& node) {
    const int device = open(node.c_str(), O_RDWR | O_NONBLOCK | O_CLOEXEC);
    if (device < 0) return std::nullopt;
    v4l2_capability answer{};
    const bool answered = ioctl(device, VIDIOC_QUERYCAP, &answer) == 0;
    close(device);
    if (!answered) return std::nullopt;
    // A camera has further nodes for its metadata; those of this node alone count.
    const auto abilities =
        answer.capabilities & V4L2_CAP_DEVICE_CAPS ? answer.device_caps : answer.capabilities;
    if (!(abilities & (V4L2_CAP_VIDEO_CAPTURE | V4L2_CAP_VIDEO_CAPTURE_MPLANE))) return std::nullopt;
    return CameraDevice{node, one_line(reinterpret_cast<const char*>(answer.card))};
}

}  // namespace

std::vector<CameraDevice> list_cameras() {
    std::vector<fs::path> nodes;
    std::error_code failed;
    for (const auto& entry : fs::directory_iterator("/dev", failed))
        if (entry.path().filename().string().starts_with("video")) nodes.push_back(entry.path());
    std::sort(nodes.begin(), nodes.end(), [](const fs::path& a, const fs::path& b) {
        const auto length_a = a.native().size(), length_b = b.native().size();
        return std::tie(length_a, a.native()) < std::tie(length_b, b.native());
    });
    std::vector<CameraDevice> cameras;
    for (const fs::path& node : nodes)
        if (auto camera = ask_device(node)) cameras.push_back(std::move(*camera));
    return cameras;
}

}  // namespace tonemend
