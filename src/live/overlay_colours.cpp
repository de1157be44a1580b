#include "live/overlay_colours.h"

#include <algorithm>
#include <cassert>

#include "colour/rgb_space.h"
#include "colour/srgb_curve.h"

namespace tonemend {
namespace {

XYZ on_line(const Lab& from, const Lab& to, double t) {
    return to_xyz({from.L + t * (to.L - from.L), from.a + t * (to.a - from.a), from.b + t * (to.b - from.b)},
                  d50_icc);
}

XYZ from_srgb8(double r, double g, double b) {
    const Vector3 xyz =
        rgb_to_xyz_d50(srgb) * Vector3{decode_srgb(r / 255), decode_srgb(g / 255), decode_srgb(b / 255)};
    return {xyz[0], xyz[1], xyz[2]};
}

}  // namespace

XYZ no_value_colour() {
    return to_xyz({50, 0, 0}, d50_icc);
}

XYZ amount_colour(double t) {
    return on_line({22, 10, -36}, {92, -4, 50}, std::clamp(t, 0.0, 1.0));
}

XYZ departure_colour(double t) {
    const Lab neutral{88, 0, 0};
    return t < 0 ? on_line(neutral, {40, -2, -40}, std::min(-t, 1.0))
                 : on_line(neutral, {40, 18, 42}, std::min(t, 1.0));
}

XYZ clipped_bright_colour() {
    return from_srgb8(213, 94, 0);
}

XYZ clipped_dark_colour() {
    return from_srgb8(86, 180, 233);
}

XYZ ground_colour() {
    return amount_colour(0.85);
}

XYZ figure_colour() {
    return amount_colour(0.15);
}

std::vector<LegendStop> difference_legend(double span, int count) {
    assert(count >= 2);
    std::vector<LegendStop> stops;
    for (int i = 0; i < count; ++i) {
        const double t = static_cast<double>(i) / (count - 1);
        stops.push_back({t * span, amount_colour(t)});
    }
    return stops;
}

std::vector<LegendStop> departure_legend(double span, int count) {
    assert(count >= 3 && count % 2 == 1);
    std::vector<LegendStop> stops;
    for (int i = 0; i < count; ++i) {
        const double t = 2.0 * i / (count - 1) - 1;
        stops.push_back({t * span, departure_colour(t)});
    }
    return stops;
}

}  // namespace tonemend
