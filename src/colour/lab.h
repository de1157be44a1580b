#pragma once

#include "colour/xyz.h"

namespace tonemend {

/// CIELAB (CIE 15:2018, 8.2.1; ISO/CIE 11664-4). L is 0 for black and 100 for the white it is relative to.
struct Lab {
    double L = 0;
    double a = 0;
    double b = 0;
};

/// CIELAB of `colour` relative to `white`. Both must be under the same light.
Lab to_lab(const XYZ& colour, const WhitePoint& white);
/// The exact inverse of to_lab.
XYZ to_xyz(const Lab& colour, const WhitePoint& white);

}  // namespace tonemend
