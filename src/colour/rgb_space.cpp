#include "colour/rgb_space.h"

#include "colour/adaptation.h"

namespace tonemend {

Matrix3 rgb_to_xyz(const RgbSpace& space) {
    const WhitePoint r = white_point(space.red);
    const WhitePoint g = white_point(space.green);
    const WhitePoint b = white_point(space.blue);
    const WhitePoint white = white_point(space.white);
    // Columns are the primaries at Y = 1; the white says how much of each.
    const Matrix3 primaries{{{{r.X, g.X, b.X}, {r.Y, g.Y, b.Y}, {r.Z, g.Z, b.Z}}}};
    const Vector3 amounts = inverse(primaries) * Vector3{white.X, white.Y, white.Z};
    return primaries * Matrix3::diagonal(amounts[0], amounts[1], amounts[2]);
}

Matrix3 rgb_to_xyz_d50(const RgbSpace& space) {
    return bradford(white_point(space.white), d50_icc) * rgb_to_xyz(space);
}

}  // namespace tonemend
