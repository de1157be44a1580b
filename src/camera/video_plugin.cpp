#include "camera/video_plugin.h"

#include <dlfcn.h>

#include <cstdlib>
#include <mutex>
#include <optional>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {

namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(const std::string& what) {
    throw InputError(
        "video: " + what +
        "; install OpenCV's video module (Debian and Ubuntu: libopencv-videoio-dev) and build again");
}

template <typename Function>
void find_function(void* library, const char* name, Function& function) {
    function = reinterpret_cast<Function>(dlsym(library, name));
    if (!function) refuse(std::string("the library tonemend_video.so lacks ") + name);
}

}  // namespace

std::vector<fs::path> video_plugin_places() {
    if (const char* named = std::getenv("TONEMEND_VIDEO_PLUGIN"); named && *named) return {named};
    std::error_code failed;
    const fs::path folder = fs::read_symlink("/proc/self/exe", failed).parent_path();
    const char* file = "tonemend_video.so";
    return {folder / file, folder.parent_path() / file, folder.parent_path() / "lib/tonemend" / file};
}

VideoPlugin load_video_plugin(const std::vector<fs::path>& places) {
    for (const fs::path& place : places) {
        std::error_code failed;
        if (!fs::exists(place, failed)) continue;
        void* library = dlopen(place.c_str(), RTLD_NOW | RTLD_LOCAL | RTLD_NODELETE);
        if (!library) refuse("cannot load " + one_line(dlerror()));
        VideoPlugin plugin;
        find_function(library, "tonemend_video_open", plugin.open);
        find_function(library, "tonemend_video_wait", plugin.wait);
        find_function(library, "tonemend_video_take", plugin.take);
        find_function(library, "tonemend_video_trouble", plugin.trouble);
        find_function(library, "tonemend_video_read_control", plugin.read_control);
        find_function(library, "tonemend_video_write_control", plugin.write_control);
        find_function(library, "tonemend_video_close", plugin.close);
        return plugin;
    }
    refuse("the library tonemend_video.so is missing" +
           (places.empty() ? std::string() : " from " + places.front().parent_path().string()));
}

void quieten_video_plugin() {
    static const int done = setenv("OPENCV_FFMPEG_LOGLEVEL", "-8", 0);  // AV_LOG_QUIET
    static_cast<void>(done);
}

const VideoPlugin& video_plugin() {
    static std::mutex mutex;
    static std::optional<VideoPlugin> plugin;
    const std::lock_guard lock(mutex);
    if (!plugin) plugin = load_video_plugin(video_plugin_places());
    return *plugin;
}

}  // namespace tonemend
