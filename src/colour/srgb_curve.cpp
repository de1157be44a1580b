#include "colour/srgb_curve.h"

#include <cmath>

namespace tonemend {

double encode_srgb(double linear) {
    const double x = std::abs(linear);
    const double encoded = x <= 0.0031308 ? 12.92 * x : 1.055 * std::pow(x, 1 / 2.4) - 0.055;
    return std::copysign(encoded, linear);
}

double decode_srgb(double encoded) {
    const double x = std::abs(encoded);
    const double linear = x <= 0.04045 ? x / 12.92 : std::pow((x + 0.055) / 1.055, 2.4);
    return std::copysign(linear, encoded);
}

}  // namespace tonemend
