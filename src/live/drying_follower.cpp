#include "live/drying_follower.h"

#include <fmt/format.h>

#include "picture/input_error.h"

namespace tonemend {
namespace {

std::string region_text(const Region& region) {
    std::string text;
    for (const Point& corner : region.corners)
        text += fmt::format("{}{:.2f},{:.2f}", text.empty() ? "" : " ", corner.x, corner.y);
    return text;
}

void require_fit(const Calibration& calibration) {
    for (const Warning& warning : calibration.warnings)
        if (warning.unfit) throw InputError(warning.text);
}

}  // namespace

DryingFollower::DryingFollower(const std::filesystem::path& log, DryingKind kind, const Region& repair,
                               double every)
    : writer_(log),
      head_{region_text(repair), kind, std::nullopt, "window", Matrix3::identity()},
      watch_(kind),
      every_(every) {
    if (const auto& found = writer_.found()) {
        head_ = found->head;
        begun_ = true;
        watch_ = found->replay();
        found_state_ = watch_.report().state;
        region_.emplace(parse_region(head_.region, "region"), head_.card_to_picture);
    } else {
        region_.emplace(repair);
    }
    said_ = std::make_shared<const DryingSaid>(DryingSaid{watch_.report(), head_.kind, ""});
}

void DryingFollower::take(const BenchState& state, double now) {
    require_fit(*state.calibration);
    const FollowedReading reading = region_->read(state.measured, *state.calibration);
    const TimedLab timed{now, reading.lab, reading.u95};
    if (watch_.add(timed) == DryingWatch::Taken::too_old)
        throw InputError("the clock has gone back; the watch waits until it is where it was");
    if (!begun_) {
        head_.card_to_picture = region_->first_card().value_or(Matrix3::identity());
        writer_.begin(head_);
        begun_ = true;
    }
    writer_.append({timed, ""}, watch_.report());
}

std::shared_ptr<const DryingSaid> DryingFollower::follow(const BenchState& state, double now) {
    if (!state.comparison || (last_try_ > 0 && now >= last_try_ && now - last_try_ < every_)) return said_;
    last_try_ = now;
    DryingSaid said{{}, head_.kind, ""};
    try {
        take(state, now);
    } catch (const InputError& error) {
        said.trouble = error.what();
    }
    said.report = watch_.report();
    said_ = std::make_shared<const DryingSaid>(std::move(said));
    return said_;
}

void mark_drying(BenchState& state, DryingFollower& follower, double now) {
    state.drying = follower.follow(state, now);
    if (!state.comparison) return;
    auto warning = warn_of_settling(state.drying->report);
    if (!warning) return;
    auto& warnings = state.comparison->warnings;
    warnings.insert(warning->unfit ? warnings.begin() : warnings.end(), *warning);
}

}  // namespace tonemend
