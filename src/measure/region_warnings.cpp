#include "measure/region_warnings.h"

#include <fmt/format.h>

#include <cmath>

namespace tonemend {
namespace {

constexpr double clipped_unfit = 0.05, clipped_worth_saying = 0.002;
constexpr double glare_unfit = 0.20, glare_worth_saying = 0.005;
constexpr double uneven_unfit = 0.10, uneven_worth_saying = 0.01;

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

void warn_of_light(const Calibration& calibration, const Comparison& comparison,
                   std::vector<Warning>& warnings) {
    const double dx = comparison.repair.centre.x - comparison.original.centre.x;
    const double dy = comparison.repair.centre.y - comparison.original.centre.y;
    const double change = std::abs(calibration.light.x * dx + calibration.light.y * dy);
    const double doubt = calibration.light.u * std::hypot(dx, dy);
    if (change < uneven_worth_saying || change < 3.0 * doubt) return;
    warnings.push_back({"light-uneven",
                        fmt::format("the light on the card changes as if it were {:.1f} % different between "
                                    "the regions; move the lamp "
                                    "further away, or lay the regions closer together",
                                    100 * change),
                        change > uneven_unfit});
}

void warn_of_size(const Comparison& comparison, std::vector<Warning>& warnings) {
    // What grain and noise alone leave open, as a share of the region's brightness; 1 % is about 0.3 in
    // lightness.
    for (const auto& [reading, which] :
         {std::pair{&comparison.original, "original"}, std::pair{&comparison.repair, "repair"}}) {
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

}  // namespace

std::vector<Warning> warn_of_regions(const Calibration& calibration, const Comparison& comparison) {
    std::vector<Warning> warnings;
    warn_of_rejects(comparison.original, "original", warnings);
    warn_of_rejects(comparison.repair, "repair", warnings);
    warn_of_light(calibration, comparison, warnings);
    warn_of_size(comparison, warnings);
    return warnings;
}

}  // namespace tonemend
