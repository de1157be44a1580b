#include "calibrate/preflight/card_shadow.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "calibrate/flat/paper_fit.h"

namespace tonemend {
namespace {

constexpr double shadow_worth_saying = 0.03;
constexpr std::size_t window = 5;  // spots

}  // namespace

double unevenness_of_paper(const std::vector<PaperSpot>& spots) {
    if (spots.size() < least_paper_spots) return 0;
    const std::vector<double> residuals = fit_paper(spots, log_brightness).residuals;
    double low = 1e300, high = -1e300;
    for (std::size_t start = 0; start < residuals.size(); ++start) {
        double mean = 0;  // the margin is a ring
        for (std::size_t k = 0; k < window; ++k) mean += residuals[(start + k) % residuals.size()] / window;
        low = std::min(low, mean), high = std::max(high, mean);
    }
    return std::exp(high - low) - 1;
}

std::optional<Warning> warn_of_shadow(const std::vector<PaperSpot>& spots) {
    const double uneven = unevenness_of_paper(spots);
    if (uneven < shadow_worth_saying) return std::nullopt;
    return Warning{
        "card-shadow",
        fmt::format("the paper around the card is {:.0f} % darker in one place than in another; keep "
                    "shadows, hands and stains off the card frame, and let it lie flat",
                    100 * uneven / (1 + uneven)),
        false};
}

}  // namespace tonemend
