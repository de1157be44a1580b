#include "camera/video_source.h"

#include <utility>

#include "camera/hold_controls.h"
#include "camera/video_plugin.h"
#include "picture/input_error.h"
#include "picture/sample_storage.h"
#include "picture/standard_encodings.h"
#include "picture/text_line.h"

namespace tonemend {

namespace {

using Clock = std::chrono::steady_clock;

TonemendVideoKind plugin_kind(VideoKind kind) {
    switch (kind) {
        case VideoKind::device:
            return tonemend_video_device;
        case VideoKind::stream:
            return tonemend_video_stream;
        case VideoKind::file:
            return tonemend_video_file;
    }
    return tonemend_video_file;
}

const char* word(VideoKind kind) {
    switch (kind) {
        case VideoKind::device:
            return "camera ";
        case VideoKind::stream:
            return "stream ";
        case VideoKind::file:
            return "video ";
    }
    return "";
}

const char* cure(VideoKind kind) {
    switch (kind) {
        case VideoKind::device:
            return "check its cable, and that no other program uses it";
        case VideoKind::stream:
            return "check the address, the network, and that the camera is on";
        case VideoKind::file:
            return "check that it is a video";
    }
    return "";
}

// "//user:password@host" shows neither in messages.
std::string without_secrets(const std::string& where) {
    const auto start = where.find("//");
    if (start == std::string::npos) return where;
    const auto at = where.substr(0, where.find('/', start + 2)).rfind('@');
    if (at == std::string::npos || at < start) return where;
    return where.substr(0, start + 2) + where.substr(at + 1);
}

}  // namespace

struct VideoSource::Opened : CameraControls {
    static constexpr int control_patience = 250;  // milliseconds

    const VideoPlugin& plugin = video_plugin();
    TonemendVideo* video;

    Opened(const std::string& where, VideoKind kind, int timeout)
        : video(plugin.open(where.c_str(), plugin_kind(kind), timeout)) {}
    ~Opened() override { plugin.close(video); }
    Opened(const Opened&) = delete;
    Opened& operator=(const Opened&) = delete;

    std::optional<double> read(TonemendVideoControl control) override {
        double value = 0;
        if (!plugin.read_control(video, control, &value, control_patience)) return std::nullopt;
        return value;
    }
    bool write(TonemendVideoControl control, double value) override {
        return plugin.write_control(video, control, value, control_patience) != 0;
    }
};

VideoSource::VideoSource(VideoKind kind, std::string where, std::chrono::milliseconds timeout)
    : kind_(kind),
      where_(std::move(where)),
      name_(word(kind) + one_line(without_secrets(where_))),
      timeout_(timeout),
      encoding_(live_video_encoding()) {
    quieten_video_plugin();
}

VideoSource::~VideoSource() = default;

void VideoSource::give_up(const std::string& trouble) {
    opened_.reset();
    throw InputError(name_ + ": " + trouble + "; " + cure(kind_));
}

void VideoSource::open() {
    if (opened_) return;
    opened_ = std::make_unique<Opened>(where_, kind_, static_cast<int>(timeout_.count()));
    last_heard_ = Clock::now();
    fresh_ = true;
}

std::shared_ptr<const Frame> VideoSource::next(std::chrono::milliseconds patience) {
    open();
    int width = 0, height = 0;
    const auto state =
        opened_->plugin.wait(opened_->video, static_cast<int>(patience.count()), &width, &height);
    if (state == tonemend_video_gone) give_up(opened_->plugin.trouble(opened_->video));
    if (state == tonemend_video_waiting) {
        // A driver that honours no timeout of its own.
        if (Clock::now() - last_heard_ > 2 * timeout_) give_up("sends nothing");
        return nullptr;
    }
    last_heard_ = Clock::now();
    // Unplugged and back, a camera has forgotten what it was asked to hold.
    if (std::exchange(fresh_, false) && hold_) (void)hold_controls(*opened_);
    auto frame = std::make_shared<Frame>();
    frame->name = name_;
    frame->width = width;
    frame->height = height;
    frame->encoding = encoding_;
    frame->samples = sample_storage(3 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    opened_->plugin.take(opened_->video, reinterpret_cast<unsigned char*>(frame->samples.data()));
    return frame;
}

std::vector<ControlOutcome> VideoSource::lock_controls() {
    if (kind_ != VideoKind::device) return {};
    hold_ = true;
    open();
    return hold_controls(*opened_);
}

}  // namespace tonemend
