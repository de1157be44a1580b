#include "measure/region_warnings.h"
#include "calibrate/flat/paper_spots.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <utility>

namespace tonemend {
namespace {

constexpr double clipped_unfit = 0.05, clipped_worth_saying = 0.002;
constexpr double glare_unfit = 0.20, glare_worth_saying = 0.005;
constexpr double uneven_unfit = 0.10, uneven_worth_saying = 0.01;

constexpr double mixture_unfit = 5.0, mixture_worth_saying = 2.5;  // ΔE2000

std::array<std::pair<const Reading*, const char*>, 2> both(const Comparison& comparison) {
    return {{{&comparison.original, "original"}, {&comparison.repair, "repair"}}};
}

double share(std::size_t part, std::size_t whole) {
    return static_cast<double>(part) / static_cast<double>(whole);
}

void warn_of_rejects(const Reading& reading, const char* which, std::vector<Warning>& warnings) {
    const double clipped = share(reading.rejected_clipped, reading.inside());
    if (clipped > clipped_worth_saying) {
        warnings.push_back(
            {"region-clipped",
             fmt::format(
                 "{:.1f} % of the {} is clipped (pure white or black) and was left out; change the exposure",
                 100 * clipped, which),
             clipped > clipped_unfit});
    }
    const double glare = share(reading.rejected_glare, reading.inside());
    if (glare > glare_worth_saying) {
        warnings.push_back({"glare",
                            fmt::format("{:.1f} % of the {} mirrors the lamp and was left out; put the lamps "
                                        "at 45 degrees, or turn the "
                                        "piece",
                                        100 * glare, which),
                            glare > glare_unfit});
    }
}

// The light at `place` as a share of the light at the card's middle, by the slope seen on the card.
double light_at(const Calibration& calibration, const Point& place) {
    const Point middle = middle_of(calibration.card_corners);
    return 1 + calibration.light.x * (place.x - middle.x) + calibration.light.y * (place.y - middle.y);
}

void warn_of_light(const Calibration& calibration, const Comparison& comparison,
                   std::vector<Warning>& warnings) {
    const Point& original = comparison.original.centre;
    const Point& repair = comparison.repair.centre;
    const double at_original = light_at(calibration, original), at_repair = light_at(calibration, repair);
    const double change = std::abs(at_repair - at_original);
    const double doubt = calibration.light.u * std::hypot(repair.x - original.x, repair.y - original.y);
    if (change < uneven_worth_saying || change < 3.0 * doubt) return;
    warnings.push_back(
        {"light-uneven",
         fmt::format("{}the light on the card changes as if it were {:.1f} % different between "
                     "the regions: {:.0f} % of the card's at the original, {:.0f} % at the repair; "
                     "move the lamp further away, as far from the one as from the other, or lay the "
                     "regions closer together",
                     calibration.flat_field ? "even evened out, " : "", 100 * change, 100 * at_original,
                     100 * at_repair),
         change > uneven_unfit});
}

void warn_of_size(const Comparison& comparison, std::vector<Warning>& warnings) {
    // What grain and noise alone leave open, as a share of the region's brightness; 1 % is about 0.3 in
    // lightness.
    for (const auto& [reading, which] : both(comparison)) {
        const double u = 1.96 * std::sqrt(reading->sampled.covariance.m[1][1]);
        const double lightness_u =
            116.0 / 3.0 * u / std::pow(std::max(reading->sampled.mean[1], 0.01), 2.0 / 3.0);
        if (lightness_u <= comparison.tolerance) continue;
        warnings.push_back(
            {"region-small",
             fmt::format(
                 "grain and noise leave the {}'s lightness open by {:.1f} either way; choose a larger region",
                 which, lightness_u),
             false});
    }
}

void warn_of_overlap(const Comparison& comparison, std::vector<Warning>& warnings) {
    const double shared = shared_part(comparison.original.region, comparison.repair.region);
    if (shared < 0.01) return;
    warnings.push_back(
        {"regions-overlap",
         fmt::format("{:.0f} % of the original's region lies in the repair's; give two separate regions",
                     100 * shared),
         false});
}

void warn_of_card(const Calibration& calibration, const Comparison& comparison,
                  std::vector<Warning>& warnings) {
    const Region card{{calibration.card_corners.begin(), calibration.card_corners.end()}};
    for (const auto& [reading, which] : both(comparison)) {
        if (shared_part(reading->region, card) < 0.01) continue;
        warnings.push_back({"region-on-card",
                            fmt::format("the {}'s region lies on the card; choose it on the wood", which),
                            false});
    }
}

// Halves that differ by more than the wood's own unevenness ever does: a joint, a shadow, a stain in the
// region.
void warn_of_mixture(const Comparison& comparison, std::vector<Warning>& warnings) {
    for (const auto& [reading, which] : both(comparison)) {
        if (reading->blank_de2000 < mixture_worth_saying) continue;
        warnings.push_back({"not-one-colour",
                            fmt::format("the {}'s two halves differ by ΔE2000 {:.1f}; does the region cross "
                                        "a joint, a shadow or bare "
                                        "bench? Choose one that is all one surface",
                                        which, reading->blank_de2000),
                            reading->blank_de2000 > mixture_unfit});
    }
}

void warn_of_range(const Calibration& calibration, const Comparison& comparison,
                   std::vector<Warning>& warnings) {
    const auto& steps = calibration.curves[1].points();
    if (steps.size() < 2) return;
    for (const auto& [reading, which] : both(comparison)) {
        const double green = reading->sampled.mean[1];
        const bool too_dark = green<0.5 * steps.front().truth, too_light = green> 1.15 * steps.back().truth;
        if (!too_dark && !too_light) continue;
        warnings.push_back({"beyond-steps",
                            fmt::format("the {} is much {} than the card's {} step, where the camera's tones "
                                        "are a guess; use a card with "
                                        "a {} step",
                                        which, too_dark ? "darker" : "lighter",
                                        too_dark ? "darkest" : "lightest", too_dark ? "darker" : "lighter"),
                            green < 0.1 * steps.front().truth});
    }
}

}  // namespace

std::vector<Warning> warn_of_regions(const Calibration& calibration, const Comparison& comparison) {
    std::vector<Warning> warnings;
    warn_of_overlap(comparison, warnings);
    warn_of_card(calibration, comparison, warnings);
    warn_of_mixture(comparison, warnings);
    warn_of_range(calibration, comparison, warnings);
    warn_of_rejects(comparison.original, "original", warnings);
    warn_of_rejects(comparison.repair, "repair", warnings);
    warn_of_light(calibration, comparison, warnings);
    warn_of_size(comparison, warnings);
    return warnings;
}

}  // namespace tonemend
