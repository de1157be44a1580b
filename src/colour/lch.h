#pragma once

#include "colour/lab.h"

namespace tonemend {

/// CIELAB in cylindrical form, LCh_ab (CIE 15:2018, 8.2.1.2).
struct LCh {
    double L = 0;
    double C = 0;  ///< chroma, at least 0
    double h = 0;  ///< hue angle in degrees, 0 ≤ h < 360; 0 for a neutral
};

/// Hue angle of (a, b) in degrees, 0 ≤ h < 360, anticlockwise from +a; 0 when both are 0.
double hue_angle(double a, double b);

LCh to_lch(const Lab& colour);
/// The inverse of to_lch; any h in degrees will do.
Lab to_lab(const LCh& colour);

}  // namespace tonemend
