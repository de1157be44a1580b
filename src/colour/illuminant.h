#pragma once

#include "colour/chromaticity.h"
#include "colour/spectrum.h"

namespace tonemend {

/// Relative power of the Planckian radiator at `kelvin` (over 0; asserted), 100 at 560 nm, with
/// c2 = 1.4388e-2 m·K (CIE 15:2018, 4.1.2). n values from start_nm to end_nm.
Spectrum planckian_radiator(double kelvin, double start_nm, double end_nm, double step_nm);

/// The mean and the first two variations of measured daylight (CIE 15:2018, table 6), on one grid.
struct DaylightComponents {
    Spectrum S0;
    Spectrum S1;
    Spectrum S2;
};

/// Chromaticity of the CIE daylight phase of correlated colour temperature `kelvin`, 4000–25 000 K (asserted)
/// (CIE 15:2018, 4.1.2, the D illuminants).
Chromaticity daylight_chromaticity(double kelvin);

/// Relative power of that phase on the components' grid, 100 at 560 nm. The factors of S1 and S2 are rounded
/// to three decimals as CIE 15 tabulates them. The named illuminants lie at 1.4388/1.4380 times their nominal
/// temperature: D50 at 5003 K, D65 at 6504 K.
Spectrum daylight(double kelvin, const DaylightComponents& components);

}  // namespace tonemend
