#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

/// The value that a share `q` (0..1) of the values lies at or below, the nearest of them; 0 without values.
inline double quantile(std::vector<double> values, double q) {
    if (values.empty()) return 0;
    std::sort(values.begin(), values.end());
    return values[static_cast<std::size_t>(q * static_cast<double>(values.size() - 1) + 0.5)];
}
