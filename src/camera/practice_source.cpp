#include "camera/practice_source.h"

#include <algorithm>
#include <thread>

namespace tonemend {

namespace {

using Clock = std::chrono::steady_clock;

// Whether both show the same light; noise and the lamp's beat come after it.
bool same_light(PracticeSettings a, const PracticeSettings& b) {
    a.bench.noise = b.bench.noise;
    a.flicker = b.flicker;
    return a == b;
}

}  // namespace

PracticeSource::PracticeSource(PracticeSettings settings, double frames_per_second)
    : interval_(static_cast<std::int64_t>(1e9 / frames_per_second)),
      wanted_(std::move(settings)),
      random_(wanted_.bench.seed, "live frames") {}

PracticeSettings PracticeSource::settings() const {
    const std::lock_guard lock(mutex_);
    return wanted_;
}

void PracticeSource::change(const PracticeSettings& settings) {
    const std::lock_guard lock(mutex_);
    wanted_ = settings;
}

std::shared_ptr<const PracticeScene> PracticeSource::scene() const {
    const std::lock_guard lock(mutex_);
    return scene_;
}

std::vector<ControlOutcome> PracticeSource::lock_controls() {
    std::vector<ControlOutcome> outcomes;
    for (const char* control : {"exposure", "gain", "white balance", "focus"})
        outcomes.push_back({control, true, "the practice camera keeps it"});
    return outcomes;
}

void PracticeSource::prepare(const PracticeSettings& settings) {
    if (shown_ == settings) return;
    const bool same = shown_ && same_light(*shown_, settings);
    auto scene = std::make_shared<const PracticeScene>(make_live_scene(settings));
    if (!same) light_ = stage_.render(*scene);
    lens_.emplace(*scene, light_);
    shown_ = settings;
    const std::lock_guard lock(mutex_);
    scene_ = std::move(scene);
}

std::shared_ptr<const Frame> PracticeSource::next(std::chrono::milliseconds patience) {
    const auto now = Clock::now();
    if (due_ > now + patience) {
        std::this_thread::sleep_for(patience);
        return nullptr;
    }
    std::this_thread::sleep_until(due_);
    due_ = std::max(due_ + interval_, Clock::now());
    prepare(settings());
    return std::make_shared<const Frame>(lens_->take(random_, shown_->flicker, taken_++));
}

}  // namespace tonemend
