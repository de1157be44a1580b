#include "calibrate/keep/individuals_chart.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

namespace tonemend {

IndividualsLimits limits_of(std::span<const double> values) {
    assert(values.size() >= 2);
    constexpr double d2 = 1.128;  // of ranges of two (ISO 7870-2)
    const auto n = static_cast<double>(values.size());
    double ranges = 0;
    for (std::size_t i = 1; i < values.size(); ++i) ranges += std::abs(values[i] - values[i - 1]);
    return {std::accumulate(values.begin(), values.end(), 0.0) / n, ranges / (n - 1) / d2};
}

ChartRule broken_rule(std::span<const double> values, const IndividualsLimits& limits) {
    if (values.empty()) return ChartRule::none;
    const double last = values.back() - limits.centre;
    const double side = last < 0 ? -1 : 1;
    const auto beyond = [&](double value, double limit) { return side * (value - limits.centre) > limit; };
    if (beyond(values.back(), limits.action())) return ChartRule::beyond_action;
    if (beyond(values.back(), limits.warning())) {
        const auto three = values.last(std::min<std::size_t>(3, values.size()));
        if (std::count_if(three.begin(), three.end(),
                          [&](double value) { return beyond(value, limits.warning()); }) >= 2)
            return ChartRule::two_of_three;
    }
    constexpr std::size_t run = 8;
    if (values.size() >= run) {
        const auto eight = values.last(run);
        if (std::all_of(eight.begin(), eight.end(), [&](double value) { return beyond(value, 0); }))
            return ChartRule::eight_on_a_side;
    }
    return beyond(values.back(), limits.warning()) ? ChartRule::beyond_warning : ChartRule::none;
}

}  // namespace tonemend
