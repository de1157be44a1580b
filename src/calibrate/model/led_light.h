#pragma once

#include "colour/spectrum.h"

namespace tonemend {

/// What tells one white LED from another of the same temperature.
struct LedShape {
    double blue_nm = 452;       ///< where the blue peak lies
    double phosphor_nm = 0;     ///< how far the phosphor lies from its usual place
    double phosphor_width = 1;  ///< times its usual width
};

/// Relative power of a white LED, 380 to 780 nm every 5 nm: a blue peak and a broad phosphor (550 nm for cool
/// ones, 600 nm for warm) in the ratio that gives the correlated colour temperature `kelvin`, 2500..7000, to
/// 1 K. A simple model of our own.
Spectrum led_light(double kelvin, const LedShape& shape = {});

}  // namespace tonemend
