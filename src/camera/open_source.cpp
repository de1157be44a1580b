#include "camera/open_source.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <filesystem>
#include <string_view>

#include "camera/folder_source.h"
#include "camera/list_cameras.h"
#include "camera/practice_source.h"
#include "camera/still_source.h"
#include "camera/video_source.h"
#include "picture/input_error.h"
#include "picture/small_letters.h"
#include "picture/text_line.h"

namespace tonemend {

namespace {

namespace fs = std::filesystem;

constexpr std::array<std::string_view, 14> video_extensions{".mp4", ".m4v", ".mov",   ".mkv", ".webm",
                                                            ".avi", ".mpg", ".mpeg",  ".mts", ".m2ts",
                                                            ".ts",  ".3gp", ".mjpeg", ".mjpg"};

fs::path at_home(const std::string& text) {
    const char* home = std::getenv("HOME");
    if (!home || !(text == "~" || text.starts_with("~/"))) return text;
    return fs::path(home) / text.substr(std::min<std::size_t>(2, text.size()));
}

bool has_video_name(const fs::path& path) {
    const std::string extension = file_ending(path);
    return std::find(video_extensions.begin(), video_extensions.end(), extension) != video_extensions.end();
}

std::shared_ptr<Source> open_first_camera() {
    const auto cameras = list_cameras();
    if (cameras.empty())
        throw InputError(
            "camera: no video device found; plug one in, or give the address of a network camera, a folder "
            "that pictures are saved "
            "to, or 'practice'");
    return std::make_shared<VideoSource>(VideoKind::device, cameras.front().node.string());
}

std::shared_ptr<Source> open_address(const std::string& address, std::string_view scheme) {
    for (const std::string_view known : {"http", "https", "rtsp", "rtsps"})
        if (scheme == known) return std::make_shared<VideoSource>(VideoKind::stream, address);
    throw InputError(one_line(address) +
                     ": no address of a stream; give one that starts with http:// or rtsp://");
}

std::shared_ptr<Source> open_path(const fs::path& path) {
    std::error_code failed;
    const fs::file_status status = fs::status(path, failed);
    if (fs::is_character_file(status)) return std::make_shared<VideoSource>(VideoKind::device, path.string());
    if (fs::is_directory(status)) return std::make_shared<FolderSource>(path);
    if (!fs::is_regular_file(status)) {
        const bool device = path.string().starts_with("/dev/");
        throw InputError(one_line(path.string()) +
                         (device
                              ? ": no such device; plug the camera in, or choose another source"
                              : ": no such file or folder; check its name, or give 'camera' or 'practice'"));
    }
    if (has_video_name(path)) return std::make_shared<VideoSource>(VideoKind::file, path.string());
    return std::make_shared<StillSource>(path);
}

}  // namespace

std::shared_ptr<Source> open_source(const std::string& text) {
    if (text == "practice") return std::make_shared<PracticeSource>();
    if (text == "camera") return open_first_camera();
    if (const auto colon = text.find("://"); colon != std::string::npos)
        return open_address(text, std::string_view(text).substr(0, colon));
    return open_path(at_home(text));
}

}  // namespace tonemend
