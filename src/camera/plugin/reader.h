#pragma once

#include <chrono>
#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>

#include <opencv2/core.hpp>
#include <opencv2/videoio.hpp>

#include "camera/plugin/tonemend_video.h"

namespace tonemend {

/// What the reader's thread and its owner share. The thread holds on to it, so it may outlive the owner while
/// a driver keeps it waiting.
struct ReaderState {
    std::string where;
    TonemendVideoKind kind = tonemend_video_device;
    int timeout = 0;  ///< milliseconds

    std::mutex mutex;
    std::condition_variable changed;
    cv::Mat newest;       ///< RGB, 8 bits; empty once taken
    bool gone = false;    ///< nothing more will come; `trouble` says why
    std::string trouble;  ///< written before `gone` is set and never after
    bool quit = false;
    bool finished = false;  ///< the thread touches nothing any more
    std::function<void(cv::VideoCapture&)> request;
};

/// Opens and reads until told to quit or nothing more comes; the body of the thread.
void read_frames(const std::shared_ptr<ReaderState>& state);

}  // namespace tonemend
