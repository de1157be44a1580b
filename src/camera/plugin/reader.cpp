#include "camera/plugin/reader.h"

#include <utility>

#include <opencv2/imgproc.hpp>

namespace tonemend {

namespace {

using Clock = std::chrono::steady_clock;

bool open_capture(cv::VideoCapture& capture, const ReaderState& state) {
    if (state.kind == tonemend_video_device) {
        if (!capture.open(state.where, cv::CAP_V4L2)) return false;
        // Drivers start at a small size; this asks for the largest that every ordinary camera has, and takes
        // what it gives.
        capture.set(cv::CAP_PROP_FOURCC, cv::VideoWriter::fourcc('M', 'J', 'P', 'G'));
        capture.set(cv::CAP_PROP_FRAME_WIDTH, 1920);
        capture.set(cv::CAP_PROP_FRAME_HEIGHT, 1080);
        return true;
    }
    return capture.open(
        state.where, cv::CAP_FFMPEG,
        {cv::CAP_PROP_OPEN_TIMEOUT_MSEC, state.timeout, cv::CAP_PROP_READ_TIMEOUT_MSEC, state.timeout});
}

void give_up(ReaderState& state, const std::string& trouble) {
    const std::lock_guard lock(state.mutex);
    state.trouble = trouble;
    state.gone = true;
    state.changed.notify_all();
}

// False when told to quit.
bool serve_requests(ReaderState& state, cv::VideoCapture& capture) {
    std::unique_lock lock(state.mutex);
    if (state.quit) return false;
    const auto request = std::exchange(state.request, nullptr);
    lock.unlock();
    if (request) request(capture);
    return true;
}

bool read_or_rewind(cv::VideoCapture& capture, cv::Mat& picture, ReaderState& state) {
    if (capture.read(picture) && !picture.empty()) return true;
    if (state.kind != tonemend_video_file) return false;
    capture.release();
    return open_capture(capture, state) && capture.read(picture) && !picture.empty();
}

void publish(ReaderState& state, const cv::Mat& picture) {
    cv::Mat rgb;
    cv::cvtColor(picture, rgb, picture.channels() == 1 ? cv::COLOR_GRAY2RGB : cv::COLOR_BGR2RGB);
    const std::lock_guard lock(state.mutex);
    std::swap(state.newest, rgb);
    state.changed.notify_all();
}

void read_until_told(ReaderState& state) {
    cv::VideoCapture capture;
    if (!open_capture(capture, state)) return give_up(state, "cannot be opened");
    const double rate = state.kind == tonemend_video_file ? capture.get(cv::CAP_PROP_FPS) : 0;
    const auto interval =
        std::chrono::microseconds(rate > 0 && rate < 1000 ? static_cast<int>(1e6 / rate) : 40'000);
    auto due = Clock::now();
    for (cv::Mat picture; serve_requests(state, capture);) {
        if (!read_or_rewind(capture, picture, state)) return give_up(state, "sends nothing any more");
        if (picture.depth() != CV_8U) return give_up(state, "sends other than 8 bits a channel");
        publish(state, picture);
        if (state.kind != tonemend_video_file) continue;
        due = std::max(due + interval, Clock::now());
        std::unique_lock lock(state.mutex);
        state.changed.wait_until(lock, due, [&] { return state.quit || state.request; });
    }
}

}  // namespace

void read_frames(const std::shared_ptr<ReaderState>& state) {
    try {
        read_until_told(*state);
    } catch (const std::exception&) {
        give_up(*state, "cannot be decoded");
    }
}

}  // namespace tonemend
