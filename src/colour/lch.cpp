#include "colour/lch.h"

#include <cmath>
#include <numbers>

namespace tonemend {

double hue_angle(double a, double b) {
    if (a == 0 && b == 0) {
        return 0;
    }
    const double h = std::atan2(b, a) * 180 / std::numbers::pi;
    // A hue a hair below the +a axis rounds up to a whole turn, which is 0.
    const double turned = h < 0 ? h + 360 : h;
    return turned >= 360 ? 0 : turned;
}

LCh to_lch(const Lab& colour) {
    return {colour.L, std::hypot(colour.a, colour.b), hue_angle(colour.a, colour.b)};
}

Lab to_lab(const LCh& colour) {
    const double h = colour.h * std::numbers::pi / 180;
    return {colour.L, colour.C * std::cos(h), colour.C * std::sin(h)};
}

}  // namespace tonemend
