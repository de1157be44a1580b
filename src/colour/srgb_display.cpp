#include "colour/srgb_display.h"

#include <algorithm>
#include <cmath>

#include "colour/rgb_space.h"
#include "colour/srgb_curve.h"

namespace tonemend {

std::array<std::uint8_t, 3> to_srgb8(const Lab& lab) {
    static const Matrix3 from_xyz = inverse(rgb_to_xyz_d50(srgb));
    const XYZ xyz = to_xyz(lab, d50_icc);
    const Vector3 linear = from_xyz * Vector3{xyz.X, xyz.Y, xyz.Z};
    std::array<std::uint8_t, 3> encoded{};
    for (std::size_t c = 0; c < 3; ++c) {
        encoded[c] =
            static_cast<std::uint8_t>(std::lround(255.0 * std::clamp(encode_srgb(linear[c]), 0.0, 1.0)));
    }
    return encoded;
}

}  // namespace tonemend
