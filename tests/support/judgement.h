#pragma once

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <random>
#include <vector>

#include "tests/support/quantile.h"

namespace tonemend {

/// Errors of the same pictures by two methods, `group` values in a row for each picture: how likely it is,
/// were there no rise, that the quantile of `with` stands over that of `without` as it does. Bootstrap over
/// the pictures (B. Efron, R. Tibshirani, "An Introduction to the Bootstrap" (1993), 16.4: the share of
/// resamples on the other side, one added to both counts).
inline double chance_of_rise(const std::vector<double>& with, const std::vector<double>& without, double q,
                             std::size_t group, int resamples) {
    std::mt19937_64 engine(1);
    const std::size_t pictures = with.size() / group;
    std::vector<double> drawn_with(with.size()), drawn_without(with.size());
    int fallen = 0;
    for (int i = 0; i < resamples; ++i) {
        for (std::size_t k = 0; k < pictures; ++k) {
            const std::size_t at = engine() % pictures;
            for (std::size_t g = 0; g < group; ++g) {
                drawn_with[k * group + g] = with[at * group + g];
                drawn_without[k * group + g] = without[at * group + g];
            }
        }
        fallen += quantile(drawn_with, q) <= quantile(drawn_without, q) ? 1 : 0;
    }
    return (fallen + 1.0) / (resamples + 1.0);
}

/// Which of several hypotheses fall when the chance to fell even one true one may be `level`: the step-down
/// method of S. Holm, "A simple sequentially rejective multiple test procedure", Scand. J. Statist. 6 (1979).
inline std::vector<bool> fallen_by_holm(const std::vector<double>& chances, double level) {
    std::vector<std::size_t> order(chances.size());
    std::iota(order.begin(), order.end(), 0);
    std::sort(order.begin(), order.end(),
              [&](std::size_t left, std::size_t right) { return chances[left] < chances[right]; });
    std::vector<bool> fallen(chances.size(), false);
    for (std::size_t rank = 0; rank < order.size(); ++rank) {
        if (chances[order[rank]] > level / static_cast<double>(order.size() - rank)) break;
        fallen[order[rank]] = true;
    }
    return fallen;
}

}  // namespace tonemend
