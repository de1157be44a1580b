#pragma once

#include "colour/xyz.h"

namespace tonemend {

/// CIE 1931 chromaticity (CIE 15:2018, 7.3).
struct Chromaticity {
    double x = 0;
    double y = 0;
};

/// CIE 1976 uniform chromaticity scale, u′ and v′ (CIE 15:2018, 8.1).
struct Ucs1976 {
    double u = 0;
    double v = 0;
};

/// CIE 1960 uniform chromaticity scale, u = u′ and v = 2⁄3 v′: out of use but for correlated colour
/// temperature (CIE 15:2018, 9.5) and the colour rendering index (CIE 13.3-1995).
struct Ucs1960 {
    double u = 0;
    double v = 0;
};

/// Chromaticities of a colour that is not black: X + Y + Z must not be 0 (asserted).
Chromaticity to_xy(const XYZ& colour);
Ucs1976 to_ucs1976(const XYZ& colour);
Ucs1960 to_ucs1960(const XYZ& colour);

/// A white of this chromaticity, scaled to Y = 1; y must not be 0 (asserted).
WhitePoint white_point(const Chromaticity& xy);
/// A white of this colour's chromaticity, scaled to Y = 1; Y must not be 0 (asserted).
WhitePoint white_point(const XYZ& colour);
/// The white as a colour: the perfect diffuser under its light.
XYZ perfect_diffuser(const WhitePoint& white);

}  // namespace tonemend
