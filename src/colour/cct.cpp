#include "colour/cct.h"

#include <algorithm>
#include <cmath>

#include "colour/planckian_locus.h"

namespace tonemend {
namespace {

constexpr double low_mired = 1e6 / hottest_locus_kelvin;
constexpr double high_mired = 1e6 / coolest_locus_kelvin;
constexpr double farthest_duv = 0.05;

// The clamp keeps 1e6/(1e6/T) from rounding out of the range.
Ucs1960 locus_at(double mired) {
    return planckian_locus(std::clamp(1e6 / mired, coolest_locus_kelvin, hottest_locus_kelvin));
}

double distance(const Ucs1960& a, const Ucs1960& b) {
    return std::hypot(a.u - b.u, a.v - b.v);
}

// How far `uv` lies ahead of the locus' point, along the locus towards warmer light. It falls through 0 at
// the nearest point, far more sharply defined than the flat bottom of the distance.
double lead(const Ucs1960& uv, double mired) {
    const double low = std::max(mired - 0.1, low_mired);
    const double high = std::min(mired + 0.1, high_mired);
    const Ucs1960 a = locus_at(low);
    const Ucs1960 b = locus_at(high);
    const Ucs1960 here = locus_at(mired);
    return ((uv.u - here.u) * (b.u - a.u) + (uv.v - here.v) * (b.v - a.v)) / distance(a, b);
}

}  // namespace

std::optional<ColourTemperature> correlated_colour_temperature(const Ucs1960& uv) {
    // Ten mired a step, near enough to pick the right valley of the distance.
    double nearest = low_mired;
    for (double mired = low_mired; mired <= high_mired; mired += 10) {
        if (distance(uv, locus_at(mired)) < distance(uv, locus_at(nearest))) {
            nearest = mired;
        }
    }
    double low = std::max(nearest - 10, low_mired);
    double high = std::min(nearest + 10, high_mired);
    // A light exactly at an end of the range leads or lags there by rounding only.
    const double slack = 1e-7;
    if (lead(uv, low) < -slack || lead(uv, high) > slack) {
        return std::nullopt;
    }
    for (int halving = 0; halving < 50; ++halving) {
        const double middle = (low + high) / 2;
        (lead(uv, middle) > 0 ? low : high) = middle;
    }
    const Ucs1960 locus = locus_at(low);
    const double off = distance(uv, locus);
    if (off > farthest_duv) {
        return std::nullopt;
    }
    // Across the locus, green is towards larger v wherever the locus is defined.
    return ColourTemperature{std::clamp(1e6 / low, coolest_locus_kelvin, hottest_locus_kelvin),
                             uv.v < locus.v ? -off : off};
}

std::optional<ColourTemperature> correlated_colour_temperature(const WhitePoint& white) {
    return correlated_colour_temperature(to_ucs1960(perfect_diffuser(white)));
}

}  // namespace tonemend
