#include "calibrate/preflight/lamp_flicker.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace tonemend {
namespace {

constexpr std::size_t most_frames = 48;  // three seconds at 15 a second
constexpr int least_turns = 4;  // a hand that comes and goes makes two, a camera that hunts about three
constexpr double least_swing = 0.01;
constexpr double turn_sigmas = 6;

}  // namespace

void LampFlicker::see(double light, double u) {
    if (!(light > 0) || !std::isfinite(light) || !(u >= 0) || !std::isfinite(u)) return;
    seen_.push_back({light, u});
    if (seen_.size() > most_frames) seen_.pop_front();
}

std::optional<double> LampFlicker::swing() const {
    if (seen_.size() <= least_turns) return std::nullopt;
    double sum = 0, u = 0;
    for (const Seen& frame : seen_) sum += frame.light, u = std::max(u, frame.u);
    const double mean = sum / static_cast<double>(seen_.size());
    const double step = std::max(least_swing * mean, turn_sigmas * u);
    // A turn is a way back by a whole step from the farthest point reached.
    double low = seen_.front().light, high = low;
    enum class Way { none, up, down };
    Way way = Way::none;
    int turns = 0;
    for (const Seen& frame : seen_) {
        low = std::min(low, frame.light), high = std::max(high, frame.light);
        const bool rises = way != Way::up && frame.light - low >= step;
        const bool falls = way != Way::down && high - frame.light >= step;
        if (!rises && !falls) continue;
        if (way != Way::none) ++turns;
        way = rises ? Way::up : Way::down;
        low = high = frame.light;
    }
    if (turns < least_turns) return std::nullopt;
    const auto [least, most] = std::minmax_element(
        seen_.begin(), seen_.end(), [](const Seen& a, const Seen& b) { return a.light < b.light; });
    return (most->light - least->light) / mean;
}

std::optional<Warning> warn_of_flicker(const LampFlicker& lamp) {
    const auto swing = lamp.swing();
    if (!swing) return std::nullopt;
    return Warning{"light-flickers",
                   fmt::format("the lamp flickers: the light on the card swings by {:.{}f} % from frame to "
                               "frame; expose for 1/100 s or a multiple of it (1/120 s where the mains have "
                               "60 Hz), or use another lamp",
                               100 * *swing, *swing < 0.1 ? 1 : 0),
                   false};
}

}  // namespace tonemend
