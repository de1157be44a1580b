#include "camera/plugin/tonemend_video.h"

#include <atomic>
#include <cstdlib>
#include <cstring>
#include <thread>

#include <opencv2/core/utils/logger.hpp>

#include "camera/plugin/controls.h"
#include "camera/plugin/reader.h"

using namespace tonemend;

struct TonemendVideo {
    std::shared_ptr<ReaderState> state = std::make_shared<ReaderState>();
    std::thread thread;
    cv::Mat taken;
};

namespace {

using std::chrono::milliseconds;

std::atomic<int> abandoned = 0;

// A thread that a driver keeps waiting ends by its timeout; leaving main before that would pull OpenCV away
// from under it.
void wait_for_abandoned() {
    for (int i = 0; i < 300 && abandoned > 0; ++i) std::this_thread::sleep_for(milliseconds(10));
}

void run(const std::shared_ptr<ReaderState>& state) {
    read_frames(state);
    const std::lock_guard lock(state->mutex);
    state->finished = true;
    state->changed.notify_all();
}

// Has the reader's thread do it between two frames; false when it did not come to it in time.
bool ask(TonemendVideo& video, int patience, const std::function<bool(cv::VideoCapture&)>& work) {
    struct Answer {
        bool given = false;
        bool good = false;
    };
    const auto answer = std::make_shared<Answer>();
    const auto state = video.state;
    std::unique_lock lock(state->mutex);
    state->request = [answer, work, raw = state.get()](cv::VideoCapture& capture) {
        const bool good = work(capture);
        const std::lock_guard inner(raw->mutex);
        *answer = {true, good};
        raw->changed.notify_all();
    };
    state->changed.notify_all();
    state->changed.wait_for(lock, milliseconds(patience), [&] { return answer->given || state->gone; });
    state->request = nullptr;
    return answer->given && answer->good;
}

}  // namespace

#define TONEMEND_EXPORT __attribute__((visibility("default")))

TONEMEND_EXPORT TonemendVideo* tonemend_video_open(const char* where, TonemendVideoKind kind, int timeout) {
    cv::utils::logging::setLogLevel(cv::utils::logging::LOG_LEVEL_SILENT);
    auto* video = new TonemendVideo;
    video->state->where = where;
    video->state->kind = kind;
    video->state->timeout = timeout;
    video->thread = std::thread(run, video->state);
    return video;
}

TONEMEND_EXPORT TonemendVideoState tonemend_video_wait(TonemendVideo* video, int patience, int* width,
                                                       int* height) {
    ReaderState& state = *video->state;
    std::unique_lock lock(state.mutex);
    state.changed.wait_for(lock, milliseconds(patience), [&] { return !state.newest.empty() || state.gone; });
    if (state.newest.empty()) return state.gone ? tonemend_video_gone : tonemend_video_waiting;
    video->taken = std::move(state.newest);
    state.newest = cv::Mat();
    *width = video->taken.cols;
    *height = video->taken.rows;
    return tonemend_video_frame;
}

TONEMEND_EXPORT void tonemend_video_take(TonemendVideo* video, unsigned char* rgb) {
    const cv::Mat& taken = video->taken;
    std::memcpy(rgb, taken.data, taken.total() * taken.elemSize());
}

TONEMEND_EXPORT const char* tonemend_video_trouble(const TonemendVideo* video) {
    const std::lock_guard lock(video->state->mutex);
    return video->state->trouble.c_str();
}

TONEMEND_EXPORT int tonemend_video_read_control(TonemendVideo* video, TonemendVideoControl control,
                                                double* value, int patience) {
    const auto read = std::make_shared<double>();
    const bool good = ask(*video, patience, [=](cv::VideoCapture& capture) {
        const auto found = read_control(capture, control);
        *read = found.value_or(0);
        return found.has_value();
    });
    if (good) *value = *read;
    return good ? 1 : 0;
}

TONEMEND_EXPORT int tonemend_video_write_control(TonemendVideo* video, TonemendVideoControl control,
                                                 double value, int patience) {
    return ask(*video, patience,
               [=](cv::VideoCapture& capture) { return write_control(capture, control, value); })
               ? 1
               : 0;
}

TONEMEND_EXPORT void tonemend_video_close(TonemendVideo* video) {
    const auto state = video->state;
    std::unique_lock lock(state->mutex);
    state->quit = true;
    state->changed.notify_all();
    const bool finished = state->changed.wait_for(lock, milliseconds(100), [&] { return state->finished; });
    lock.unlock();
    if (finished) {
        video->thread.join();
    } else {
        static const int registered = std::atexit(wait_for_abandoned);
        static_cast<void>(registered);
        ++abandoned;
        // Waits for it elsewhere, so that it is known when the last one ended.
        std::thread([thread = std::move(video->thread)]() mutable {
            thread.join();
            --abandoned;
        }).detach();
    }
    delete video;
}
