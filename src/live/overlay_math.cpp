#include "live/overlay_math.h"

#include <algorithm>
#include <cmath>

namespace tonemend {

bool has_value(const Vector3& code) {
    return std::isfinite(code[0]) && std::isfinite(code[1]) && std::isfinite(code[2]);
}

Clipping clipping_of(const Vector3& code) {
    if (*std::ranges::max_element(code) >= 1) return Clipping::bright;
    if (*std::ranges::min_element(code) <= 0) return Clipping::dark;
    return Clipping::none;
}

double neutral_excess(const GlareGauge& gauge, const Vector3& light) {
    if (light[0] + light[1] + light[2] <= static_cast<double>(gauge.brightness)) return 0;
    double part = 0;
    for (std::size_t c = 0; c < 3; ++c) part += static_cast<double>(gauge.weights[c]) * light[c];
    const double centre = static_cast<double>(gauge.centre);
    return std::max(0.0, (part - centre) / (static_cast<double>(gauge.limit) - centre));
}

double light_departure(const LightPlane& plane, double Y, double x, double y) {
    const double light = plane.level * (1 + plane.slope_x * (x - plane.x) + plane.slope_y * (y - plane.y));
    return light > 1e-6 ? Y / light - 1 : 0;
}

double lightness_over(double level, double Y) {
    return to_lab(XYZ{d50_icc.X * Y, Y, d50_icc.Z * Y}, d50_icc).L - level;
}

FigureGauge gauge_figure(const GroundAndFigure& split) {
    return {split.axis, split.boundary};
}

bool is_figure(const FigureGauge& gauge, const Vector3& light) {
    return gauge.axis[0] * light[0] + gauge.axis[1] * light[1] + gauge.axis[2] * light[2] < gauge.boundary;
}

}  // namespace tonemend
