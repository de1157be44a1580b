#pragma once

#include <array>
#include <string_view>

#include "colour/chromaticity.h"
#include "colour/matrix3.h"

namespace tonemend {

/// An additive RGB space by its primaries and white. Linear values: R = G = B = 1 is the white, Y = 1.
struct RgbSpace {
    std::string_view name;
    Chromaticity red;
    Chromaticity green;
    Chromaticity blue;
    Chromaticity white;
};

/// IEC 61966-2-1 (sRGB) and Rec. ITU-R BT.709 share primaries and white.
inline constexpr RgbSpace srgb{"sRGB", {0.64, 0.33}, {0.30, 0.60}, {0.15, 0.06}, {0.3127, 0.3290}};
/// The primaries of SMPTE RP 431-2 with white D65 (SMPTE EG 432-1).
inline constexpr RgbSpace display_p3{
    "Display P3", {0.680, 0.320}, {0.265, 0.690}, {0.150, 0.060}, {0.3127, 0.3290}};
/// IEC 61966-2-5.
inline constexpr RgbSpace op_rgb{"opRGB", {0.64, 0.33}, {0.21, 0.71}, {0.15, 0.06}, {0.3127, 0.3290}};
/// ISO 22028-2; two of its primaries are not real lights.
inline constexpr RgbSpace romm_rgb{
    "ROMM RGB", {0.7347, 0.2653}, {0.1596, 0.8404}, {0.0366, 0.0001}, {0.3457, 0.3585}};
/// Rec. ITU-R BT.2020.
inline constexpr RgbSpace bt2020{"BT.2020", {0.708, 0.292}, {0.170, 0.797}, {0.131, 0.046}, {0.3127, 0.3290}};

inline constexpr std::array<RgbSpace, 5> rgb_spaces{srgb, display_p3, op_rgb, romm_rgb, bt2020};

/// Linear RGB to XYZ under the space's own white, from the chromaticities (SMPTE RP 177).
Matrix3 rgb_to_xyz(const RgbSpace& space);
/// Linear RGB to XYZ under d50_icc: rgb_to_xyz adapted by Bradford, as the colorants of an ICC profile are.
Matrix3 rgb_to_xyz_d50(const RgbSpace& space);

}  // namespace tonemend
