#include <algorithm>
#include <chrono>
#include <filesystem>
#include <thread>

#include "camera/frame_average.h"
#include "camera/open_source.h"
#include "cli/drying_sources.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

using Clock = std::chrono::steady_clock;

constexpr int most_frames = 16;
constexpr std::chrono::milliseconds patience{100}, longest_mean{2000};

double now_seconds() {
    return std::chrono::duration<double>(std::chrono::system_clock::now().time_since_epoch()).count();
}

// Frames as they come, so that none is old when it is wanted, and the source's absence said once.
class FrameTap {
  public:
    FrameTap(Source& source, DryingProgress& progress) : source_(source), progress_(progress) {}

    std::shared_ptr<const Frame> next() {
        try {
            auto frame = source_.next(patience);
            if (frame) retry_ = first_retry;
            return frame;
        } catch (const InputError& error) {
            progress_.say_left_out(error.what());
            std::this_thread::sleep_for(retry_);
            retry_ = std::min(2 * retry_, longest_retry);
            return nullptr;
        }
    }

  private:
    static constexpr std::chrono::milliseconds first_retry{100}, longest_retry{5000};
    Source& source_;
    DryingProgress& progress_;
    std::chrono::milliseconds retry_ = first_retry;
};

std::shared_ptr<const Frame> take_mean(FrameTap& tap) {
    FrameAverage average(most_frames);
    const auto end = Clock::now() + longest_mean;
    while (average.count() < most_frames && Clock::now() < end)
        if (auto frame = tap.next()) average.add(std::move(frame));
    return average.result();
}

}  // namespace

void watch_live(const DryingOptions& options, DryingProgress& progress) {
    const auto source = open_source(options.source);
    if (!source->live() || std::filesystem::is_regular_file(options.source))
        throw InputError(options.source +
                         ": says nothing of time; give a folder of stills, or a live source: a camera, a "
                         "stream or 'practice'");
    FrameTap tap(*source, progress);
    const auto interval =
        std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(options.every));
    auto due = Clock::now();
    while (!progress.done()) {
        if (Clock::now() < due) {
            tap.next();
            continue;
        }
        due = Clock::now() + interval;
        if (const auto frame = take_mean(tap)) progress.take(frame, now_seconds(), "");
    }
}

}  // namespace tonemend
