#include "live/flicker_watch.h"

#include <algorithm>
#include <cmath>

namespace tonemend {
namespace {

constexpr double bright_share =
    0.5;  // of the lightest patch's light: darker ones add more noise than they tell
constexpr double most_clipped = 0.02;  // of a patch, as for card-clipped

double brightness(const Vector3& rgb) {
    return (rgb[0] + rgb[1] + rgb[2]) / 3;
}

std::vector<Region> bright_areas(const Calibration& calibration) {
    double most = 0;
    for (const PatchReading& patch : calibration.patches)
        if (patch.clipped_share() <= most_clipped) most = std::max(most, brightness(patch.mean));
    std::vector<Region> areas;
    for (const PatchReading& patch : calibration.patches)
        if (patch.clipped_share() <= most_clipped && brightness(patch.mean) >= bright_share * most)
            areas.push_back(patch.area);
    return areas;
}

}  // namespace

void FlickerWatch::clear() {
    lamp_.clear();
    areas_.clear();
}

void FlickerWatch::see_card(const Frame& frame, const Calibration& calibration) {
    // The same patches as long as nothing moves: one that came and went would be a beat of its own.
    if (areas_.empty()) areas_ = bright_areas(calibration);
    double sum = 0, variance = 0;
    for (const Region& area : areas_) {
        const PatchReading now = read_area(frame, area);
        if (now.clipped_share() > most_clipped) return clear();
        sum += brightness(now.mean);
        variance += std::pow(brightness(now.mean_u), 2);
    }
    lamp_.see(sum, std::sqrt(variance));
}

void FlickerWatch::take_in(BenchState& state) {
    if (state.step) {
        if (*state.step != Restart::none && *state.step != Restart::light_changed) clear();
        if (state.calibration) see_card(*state.frame, *state.calibration);
    }
    if (!state.comparison) return;
    if (const auto warning = warn_of_flicker(lamp_)) state.comparison->warnings.push_back(*warning);
}

}  // namespace tonemend
