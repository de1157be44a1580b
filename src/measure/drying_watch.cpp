#include "measure/drying_watch.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "colour/difference.h"

namespace tonemend {
namespace {

constexpr double sure = 0.985;
constexpr int fewest_to_settle = 6, fewest_to_judge = 4;
constexpr double seen_of_scale = 0.6;  // share of the curve's scale that must have been watched
constexpr double vague = 4;            // the longest likely time over the shortest that says too little
constexpr double label_spread = 0.6;   // of the logarithm of the true time about a label's
constexpr double least_jump = 1;       // ΔE2000
constexpr double spoils = 1;           // ΔE2000 still to go that makes a reading useless

std::string minutes_text(double minutes) {
    if (minutes < 1.5) return "1 minute";
    if (minutes < 20) return fmt::format("{:.0f} minutes", minutes);
    if (minutes < 120) return fmt::format("{:.0f} minutes", 5 * std::round(minutes / 5));
    return fmt::format("{:.1f} hours", minutes / 60);
}

}  // namespace

const char* name(DryingState state) {
    switch (state) {
        case DryingState::settling:
            return "settling";
        case DryingState::settled:
            return "settled";
        case DryingState::watching:
            break;
    }
    return "watching";
}

double DryingReport::changed() const {
    return ciede2000(fit.wet, fit.now).value;
}

DryingWatch::DryingWatch(DryingKind kind, std::optional<double> label_minutes)
    : prior_{label_minutes.value_or(wait_of(kind).minutes),
             label_minutes ? label_spread : wait_of(kind).spread},
      wait_minutes_(prior_.minutes),
      wait_is_labels_(label_minutes.has_value()) {}

const SettlingCurves& DryingWatch::curves() const {
    if (!curves_) curves_.emplace(readings_, prior_);
    return *curves_;
}

bool DryingWatch::lies_off(const TimedLab& reading) const {
    constexpr std::size_t fewest = 4;
    // A curve that is wrong by itself goes off slowly: then there is no jump from the last reading.
    if (readings_.size() < fewest || ciede2000(readings_.back().lab, reading.lab).value <= least_jump)
        return false;
    const SettlingFit fit = curves().at(reading.seconds);
    const std::array<double, 3> off{reading.lab.L - fit.now.L, reading.lab.a - fit.now.a,
                                    reading.lab.b - fit.now.b};
    bool far = false;
    for (std::size_t axis = 0; axis < 3; ++axis) far |= std::abs(off[axis]) > 2.5 * fit.predicted_u95[axis];
    return far && ciede2000(fit.now, reading.lab).value > least_jump;
}

DryingWatch::Taken DryingWatch::add(const TimedLab& reading) {
    if (!readings_.empty() && reading.seconds <= (held_ ? held_->seconds : last())) return Taken::too_old;
    if (!lies_off(reading)) {
        held_.reset();
        readings_.push_back(reading);
        curves_.reset();
        return Taken::added;
    }
    const SettlingFit fit = curves().at(reading.seconds);
    const double jump = ciede2000(fit.now, reading.lab).value;
    if (!held_ || ciede2000(held_->lab, reading.lab).value > jump / 2) {
        held_ = reading;
        return Taken::held;
    }
    readings_ = {*held_, reading};
    held_.reset();
    curves_.reset();
    ++restarts_;
    return Taken::restarted;
}

DryingReport DryingWatch::report() const {
    return report_at(readings_.empty() ? 0 : last());
}

DryingReport DryingWatch::report_at(double when) const {
    DryingReport report;
    report.wait_minutes = wait_minutes_, report.wait_is_labels = wait_is_labels_;
    report.restarts = restarts_;
    report.readings = static_cast<int>(readings_.size());
    report.when = when;
    if (readings_.empty()) return report;
    report.fit = curves().at(when);
    report.seen_minutes = (last() - begin()) / 60;
    const SettlingFit& fit = report.fit;
    const double age = (when - begin()) / 60;
    // A reading that is held may be the first of another coat: nothing has settled before it is explained.
    if (!held_ && report.readings >= fewest_to_settle && fit.surely_within >= sure &&
        report.seen_minutes >= seen_of_scale * fit.scale_minutes)
        report.state = DryingState::settled;
    else if (report.readings >= fewest_to_judge && age + fit.minutes.high <= vague * (age + fit.minutes.low))
        report.state = DryingState::settling;
    return report;
}

std::string say_state(const DryingReport& report) {
    switch (report.state) {
        case DryingState::settled:
            return "settled";
        case DryingState::settling:
            return fmt::format("still settling, about {} to within {:g}",
                               minutes_text(report.fit.minutes.middle), settled_within);
        case DryingState::watching:
            break;
    }
    return fmt::format("watching: too little has been seen yet; {} {} is usual",
                       report.wait_is_labels ? "by the label" : "a wait of",
                       minutes_text(report.wait_minutes));
}

std::optional<Warning> warn_of_settling(const DryingReport& report) {
    if (report.state == DryingState::settled) return std::nullopt;
    if (report.state == DryingState::watching)
        return Warning{
            "still-settling",
            fmt::format("the surface was read while drying, and too little had been seen to say how "
                        "far it still has to go; wait (about {}: {}) and read again",
                        minutes_text(report.wait_minutes),
                        report.wait_is_labels ? "the label's time" : wait_origin),
            true};
    const Believed& left = report.fit.remaining;
    return Warning{
        "still-settling",
        fmt::format("the surface was read while drying: about ΔE2000 {:.1f} is still to go (at most "
                    "{:.1f}); wait about {} and read again",
                    left.middle, left.high, minutes_text(report.fit.minutes.middle)),
        left.middle > spoils};
}

}  // namespace tonemend
