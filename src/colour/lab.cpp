#include "colour/lab.h"

#include <cmath>

namespace tonemend {
namespace {

// CIE 15:2018, equations 8.6 to 8.11, with the exact fractions.
constexpr double knee = 6.0 / 29.0;

double f(double t) {
    return t > knee * knee * knee ? std::cbrt(t) : t * (841.0 / 108.0) + 4.0 / 29.0;
}

double f_inverse(double s) {
    return s > knee ? s * s * s : (s - 4.0 / 29.0) * (108.0 / 841.0);
}

}  // namespace

Lab to_lab(const XYZ& colour, const WhitePoint& white) {
    const double fx = f(colour.X / white.X);
    const double fy = f(colour.Y / white.Y);
    const double fz = f(colour.Z / white.Z);
    return {116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)};
}

XYZ to_xyz(const Lab& colour, const WhitePoint& white) {
    const double fy = (colour.L + 16) / 116;
    return {white.X * f_inverse(fy + colour.a / 500), white.Y * f_inverse(fy),
            white.Z * f_inverse(fy - colour.b / 200)};
}

}  // namespace tonemend
