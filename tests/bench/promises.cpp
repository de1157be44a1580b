#include "tests/bench/promises.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "tests/support/judgement.h"

namespace tonemend::bench {

std::string pair_of(const std::vector<double>& values) {
    return fmt::format("{:.3f}/{:.3f}", quantile(values, 0.5), quantile(values, 0.95));
}

void Promises::require(bool holds, const std::string& what) {
    if (holds) return;
    fmt::print("  BROKEN: {}\n", what);
    broken_ = true;
}

void Promises::require_target(const std::string& what, const std::vector<double>& errors, double median,
                              double most) {
    require(quantile(errors, 0.5) <= median && quantile(errors, 0.95) <= most,
            fmt::format("{}: {} (at most {}/{})", what, pair_of(errors), median, most));
}

void Promises::require_coverage(const std::string& where, const Scores& scores) {
    const auto within = [&](const Interval& interval, const char* what) {
        require(
            interval.percent() >= 90 && interval.percent() <= 99,
            fmt::format("{}: {} inside its interval {:.1f} % (90 to 99)", where, what, interval.percent()));
    };
    within(scores.same_inside, "dE2000, same colourant,");
    within(scores.earth_inside, "dE2000, earth colourants,");
    within(scores.same_lab_inside, "L*, a*, b* beside the same colourant,");
    within(scores.earth_lab_inside, "L*, a*, b* beside earths,");
}

void Promises::require_no_rise(const std::string& where, const std::vector<double>& with,
                               const std::vector<double>& without, std::size_t group) {
    const double pictures = static_cast<double>(with.size()) / static_cast<double>(group);
    const double most = most_rise * std::max(1.0, std::sqrt(480 / pictures));
    for (const double q : {0.5, 0.95}) {
        const double after = quantile(with, q), before = quantile(without, q);
        const std::string what =
            fmt::format("{}: percentile {:.0f} is {:.3f}, over {:.3f}", where, 100 * q, after, before);
        require(after - before <= std::max(most * before, smallest_rise), what);
        // Enough resamples to see a chance of 0.05 over all that are looked at.
        constexpr int resamples = 8000;
        rises_.push_back(what);
        chances_.push_back(after > before ? chance_of_rise(with, without, q, group, resamples) : 1);
    }
}

void Promises::judge_rises() {
    const std::vector<bool> real = fallen_by_holm(chances_, 0.05);
    for (std::size_t i = 0; i < rises_.size(); ++i)
        require(!real[i], fmt::format("{}, by chance {:.4f} of the time", rises_[i], chances_[i]));
    if (chances_.empty()) return;
    const auto least = std::min_element(chances_.begin(), chances_.end()) - chances_.begin();
    fmt::print("{} quantiles looked at; the least likely rise, chance {:.4f}: {}\n", chances_.size(),
               chances_[static_cast<std::size_t>(least)], rises_[static_cast<std::size_t>(least)]);
}

}  // namespace tonemend::bench
