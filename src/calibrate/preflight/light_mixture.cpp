#include "calibrate/preflight/light_mixture.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "calibrate/flat/paper_fit.h"

namespace tonemend {
namespace {

constexpr double mixture_worth_saying = 0.015;
constexpr double sigmas = 5;

// The plane's highest value over the spots less its lowest; neighbouring spots are tied, so the standard
// error is doubled.
std::pair<double, double> change_of(const std::vector<PaperSpot>& spots, std::size_t channel) {
    const auto value = [channel](const PaperSpot& spot) {
        return std::log(std::max(spot.light[channel], 1e-6) / std::max(spot.light[1], 1e-6));
    };
    const PaperFit fit = fit_paper(spots, value);
    double low = 1e300, high = -1e300;
    for (const PaperSpot& spot : spots) {
        const double plane = fit.coefficients[1] * spot.place.x + fit.coefficients[2] * spot.place.y;
        low = std::min(low, plane), high = std::max(high, plane);
    }
    const auto n = static_cast<double>(spots.size());
    // Over an evenly filled range the standard error of the difference between the ends is √12 of the mean's.
    return {high - low, 2 * std::sqrt(12 * fit.squares / (n - 3) / n)};
}

}  // namespace

std::optional<HueSlope> find_hue_slope(const std::vector<PaperSpot>& spots) {
    if (spots.size() < least_paper_spots) return std::nullopt;
    const auto [red, red_u] = change_of(spots, 0);
    const auto [blue, blue_u] = change_of(spots, 2);
    return HueSlope{red, blue, std::max(red_u, blue_u)};
}

std::optional<Warning> warn_of_mixture(const std::vector<PaperSpot>& spots) {
    const auto slope = find_hue_slope(spots);
    if (!slope) return std::nullopt;
    const double most = std::max(slope->red, slope->blue);
    if (most < mixture_worth_saying || most < sigmas * slope->u) return std::nullopt;
    return Warning{
        "light-mixed",
        fmt::format("the light changes colour over the card frame, red against green by {:.1f} %, blue "
                    "by {:.1f} %: two kinds of light are mixed; switch one off, or shut the window out",
                    100 * slope->red, 100 * slope->blue),
        false};
}

}  // namespace tonemend
