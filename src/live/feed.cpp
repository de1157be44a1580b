#include "live/feed.h"

#include "camera/list_cameras.h"
#include "camera/open_source.h"
#include "camera/practice_source.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

// How soon a source that fell silent, or the end of the window, is noticed.
constexpr std::chrono::milliseconds notice_within{150};

}  // namespace

Feed::Feed(std::function<void()> arrived) : arrived_(std::move(arrived)), relay_([this] { relay(); }) {}

Feed::~Feed() {
    close();
}

void Feed::close() {
    ending_ = true;
    if (relay_.joinable()) relay_.join();
    capture_.stop();
}

void Feed::relay() {
    std::shared_ptr<const CapturedFrame> last = capture_.latest();
    while (!ending_) {
        const auto now = capture_.wait_for_newer(last->number, notice_within);
        if (now->number != last->number || now->stale != last->stale || now->trouble != last->trouble)
            arrived_();
        last = now;
    }
}

void Feed::open(const std::string& source) {
    std::string wanted = source;
    bool stands_in = false;
    if (wanted.empty()) {
        const auto cameras = list_cameras();
        stands_in = cameras.empty();
        wanted = stands_in ? "practice" : cameras.front().node.string();
    }
    std::shared_ptr<PracticeSource> practice;
    std::shared_ptr<Source> opened;
    if (wanted == "practice") {
        opened = practice = std::make_shared<PracticeSource>(to_settings(knobs_));
    } else {
        opened = open_source(wanted);
    }
    capture_.watch(opened);
    practice_ = std::move(practice);
    source_ = wanted;
    stands_in_ = stands_in;
}

std::string Feed::name() const {
    return capture_.source_name();
}

void Feed::turn(const PracticeKnobs& knobs) {
    knobs_ = knobs;
    if (practice_) practice_->change(to_settings(knobs_));
}

std::vector<std::string> Feed::choices() const {
    std::vector<std::string> choices;
    for (const CameraDevice& camera : list_cameras()) choices.push_back(camera.node.string());
    choices.emplace_back("practice");
    return choices;
}

}  // namespace tonemend
