#include "calibrate/preflight/light_bands.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "calibrate/flat/paper_fit.h"

namespace tonemend {
namespace {

constexpr double bands_worth_saying = 0.02;
// A wave leaves next to nothing; a shadow's edge is explained by a slow wave up to nine tenths, by a quick
// one to less.
constexpr double explained_slow = 0.96, explained_quick = 0.75;
constexpr double slow_periods = 1.7;
constexpr double fewest_periods = 0.9;

struct Extent {
    double low = 1e300, high = -1e300;
    double length() const { return high - low; }
};

Extent extent_of(const std::vector<PaperSpot>& spots, double Point::*axis) {
    Extent extent;
    for (const PaperSpot& spot : spots) {
        extent.low = std::min(extent.low, spot.place.*axis);
        extent.high = std::max(extent.high, spot.place.*axis);
    }
    return extent;
}

bool stands_out(const LightBands& bands, double extent) {
    return bands.explained > (extent / bands.period < slow_periods ? explained_slow : explained_quick);
}

}  // namespace

std::optional<LightBands> find_bands(const std::vector<PaperSpot>& spots) {
    if (spots.size() < least_paper_spots) return std::nullopt;
    const double plain = fit_paper(spots, log_brightness).squares;
    if (plain <= 0) return std::nullopt;
    std::optional<LightBands> best;
    for (const bool in_rows : {true, false}) {
        double Point::*axis = in_rows ? &Point::y : &Point::x;
        const double length = extent_of(spots, axis).length();
        // The ring of spots goes along and back: its length a spot is the spots' distance.
        const double distance =
            2 * (extent_of(spots, &Point::x).length() + extent_of(spots, &Point::y).length()) /
            static_cast<double>(spots.size());
        for (double periods = fewest_periods; length / periods > 3 * distance; periods += 0.12) {
            const double rate = 2 * std::numbers::pi * periods / length;
            const PaperFit fit =
                fit_paper(spots, log_brightness,
                          {[=](const PaperSpot& s) { return std::cos(rate * s.place.*axis); },
                           [=](const PaperSpot& s) { return std::sin(rate * s.place.*axis); }});
            const double explained = 1 - fit.squares / plain;
            if (best && explained <= best->explained) continue;
            const double swing = 2 * std::hypot(fit.coefficients[3], fit.coefficients[4]);
            best = LightBands{std::exp(swing) - 1, length / periods, explained, in_rows};
        }
    }
    return best;
}

std::optional<Warning> warn_of_bands(const std::vector<PaperSpot>& spots) {
    const auto bands = find_bands(spots);
    if (!bands || bands->swing < bands_worth_saying) return std::nullopt;
    const Extent extent = extent_of(spots, bands->in_rows ? &Point::y : &Point::x);
    if (!stands_out(*bands, extent.length())) return std::nullopt;
    return Warning{"light-banded",
                   fmt::format("bands of light and dark, {:.0f} % apart, lie over the picture every {:.0f} "
                               "pixels: the lamp flickers with the mains; expose for 1/50 s (1/60 s) or a "
                               "multiple of it, or use another lamp",
                               100 * bands->swing, bands->period),
                   false};
}

}  // namespace tonemend
