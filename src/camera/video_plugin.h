#pragma once

#include <filesystem>
#include <vector>

#include "camera/plugin/tonemend_video.h"

namespace tonemend {

/// The functions of the plug-in library.
struct VideoPlugin {
    decltype(&tonemend_video_open) open = nullptr;
    decltype(&tonemend_video_wait) wait = nullptr;
    decltype(&tonemend_video_take) take = nullptr;
    decltype(&tonemend_video_trouble) trouble = nullptr;
    decltype(&tonemend_video_read_control) read_control = nullptr;
    decltype(&tonemend_video_write_control) write_control = nullptr;
    decltype(&tonemend_video_close) close = nullptr;
};

/// Where tonemend_video.so is looked for, in this order: the file that the environment variable
/// TONEMEND_VIDEO_PLUGIN names and nowhere else if it is set; beside the running program; one folder up;
/// ../lib/tonemend from there.
std::vector<std::filesystem::path> video_plugin_places();

/// Loads a plug-in library. Throws InputError: there is none, or what it needs is not installed.
VideoPlugin load_video_plugin(const std::vector<std::filesystem::path>& places);

/// Tells FFmpeg, through the environment variable that OpenCV reads, to keep its remarks on each frame off
/// stderr, unless the user has set that variable. The environment may not be changed while another thread
/// reads it: call it where sources are made, not where they run.
void quieten_video_plugin();

/// The one of this program, loaded at the first call that succeeds and kept until the end. May be called from
/// several threads.
const VideoPlugin& video_plugin();

}  // namespace tonemend
