#pragma once

#include <cstddef>
#include <span>

namespace tonemend {

/// Limits of a Shewhart chart of individual values (ISO 7870-2; NIST/SEMATECH e-Handbook of Statistical
/// Methods, 6.3.2.2): centre ± 3σ is the action limit, centre ± 2σ the warning limit, σ from the mean
/// distance of neighbouring values.
struct IndividualsLimits {
    double centre = 0;
    double sigma = 0;

    double action() const { return 3 * sigma; }
    double warning() const { return 2 * sigma; }
};

/// Limits from two values or more: their mean, and the mean of the moving ranges over 1.128 (so that the
/// action limit is 2.66 mean ranges away).
IndividualsLimits limits_of(std::span<const double> values);

/// What speaks against the last value of a chart.
enum class ChartRule {
    none,
    beyond_action,    ///< it lies beyond the action limit
    two_of_three,     ///< two of the last three, itself among them, lie beyond one warning limit
    eight_on_a_side,  ///< the last eight lie on one side of the centre
    beyond_warning    ///< it lies beyond the warning limit: a sign, not yet a proof
};

/// The first of the rules, in their order, that the last of `values` breaks.
ChartRule broken_rule(std::span<const double> values, const IndividualsLimits& limits);

}  // namespace tonemend
