#include "live/measure_loop.h"

#include "live/drying_follower.h"
#include "live/flicker_watch.h"
#include "live/measure_frame.h"
#include "live/still_moment.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

double seconds_since_1970() {
    return std::chrono::duration<double>(std::chrono::system_clock::now().time_since_epoch()).count();
}

// How often a source that sends nothing is asked whether it has gone stale.
constexpr std::chrono::milliseconds silence{250};

}  // namespace

MeasureLoop::MeasureLoop(std::function<CapturedFrame()> latest, std::function<void()> published)
    : latest_(std::move(latest)), published_(std::move(published)), thread_([this] { run(); }) {}

MeasureLoop::~MeasureLoop() {
    {
        const std::lock_guard lock(mutex_);
        ending_ = true;
    }
    changed_.notify_all();
    thread_.join();
}

void MeasureLoop::wake() {
    {
        const std::lock_guard lock(mutex_);
        awake_ = true;
    }
    changed_.notify_one();
}

void MeasureLoop::ask(const MeasureRequest& request) {
    {
        const std::lock_guard lock(mutex_);
        request_ = request;
        ++asked_;
        awake_ = true;
    }
    changed_.notify_one();
}

std::shared_ptr<const BenchState> MeasureLoop::state() const {
    const std::lock_guard lock(mutex_);
    return state_;
}

void MeasureLoop::run() {
    FrameMeter meter;
    StillMoment moment;
    FlickerWatch flicker;
    std::uint64_t answered = 0;
    while (true) {
        MeasureRequest request;
        std::uint64_t asked = 0;
        {
            std::unique_lock lock(mutex_);
            changed_.wait_for(lock, silence, [this] { return awake_ || ending_; });
            if (ending_) return;
            awake_ = false;
            request = request_;
            asked = asked_;
        }
        const CapturedFrame captured = latest_();
        const std::shared_ptr<const BenchState> last = state();
        const bool new_frame = captured.frame && (captured.number != last->frame_number ||
                                                  asked != answered || captured.frame != last->frame);
        if (!new_frame && captured.stale == last->stale && captured.trouble == last->trouble) continue;
        auto next = std::make_shared<BenchState>();
        if (new_frame) {
            moment.take_in(captured, request.average, *next);
            next->frame_number = captured.number;
            next->source = captured.source;
            next->captured = captured.when;
            meter.measure(request, *next);
            flicker.take_in(*next);
            if (request.drying) mark_drying(*next, *request.drying, seconds_since_1970());
            next->latency = std::chrono::duration_cast<std::chrono::milliseconds>(
                std::chrono::steady_clock::now() - captured.when);
            answered = asked;
        } else {
            *next = *last;
        }
        if (captured.stale) moment.interrupt();
        next->stale = captured.stale;
        next->trouble = captured.trouble;
        next->revision = last->revision + 1;
        {
            const std::lock_guard lock(mutex_);
            state_ = std::move(next);
        }
        published_();
    }
}

}  // namespace tonemend
