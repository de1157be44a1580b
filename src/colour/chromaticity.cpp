#include "colour/chromaticity.h"

#include <cassert>

namespace tonemend {

Chromaticity to_xy(const XYZ& colour) {
    const double sum = colour.X + colour.Y + colour.Z;
    assert(sum != 0);
    return {colour.X / sum, colour.Y / sum};
}

Ucs1976 to_ucs1976(const XYZ& colour) {
    const double sum = colour.X + 15 * colour.Y + 3 * colour.Z;
    assert(sum != 0);
    return {4 * colour.X / sum, 9 * colour.Y / sum};
}

Ucs1960 to_ucs1960(const XYZ& colour) {
    const double sum = colour.X + 15 * colour.Y + 3 * colour.Z;
    assert(sum != 0);
    return {4 * colour.X / sum, 6 * colour.Y / sum};
}

WhitePoint white_point(const Chromaticity& xy) {
    assert(xy.y != 0);
    return {xy.x / xy.y, 1, (1 - xy.x - xy.y) / xy.y};
}

WhitePoint white_point(const XYZ& colour) {
    assert(colour.Y != 0);
    return {colour.X / colour.Y, 1, colour.Z / colour.Y};
}

XYZ perfect_diffuser(const WhitePoint& white) {
    return {white.X, white.Y, white.Z};
}

}  // namespace tonemend
