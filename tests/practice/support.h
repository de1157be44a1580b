#pragma once

#include <algorithm>
#include <cstdio>
#include <vector>

#include "tests/catch.h"

/// Prints the worst error and checks it: at most `bound`, and at least a twentieth of it, so that a bound
/// that is too loose to mean anything fails as well.
inline void check_tight(const char* what, double worst, double bound) {
    std::printf("  %s: worst %.3g, bound %.3g\n", what, worst, bound);
    INFO(what << ": " << worst << " against " << bound);
    CHECK(worst <= bound);
    CHECK(worst >= bound / 20);
}

/// The value below which the share `q` (0..1) of the values lies.
inline double quantile(std::vector<double> values, double q) {
    std::sort(values.begin(), values.end());
    return values[static_cast<std::size_t>(q * static_cast<double>(values.size() - 1) + 0.5)];
}
