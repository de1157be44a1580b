#pragma once

#include "colour/chromaticity.h"

namespace tonemend {

/// The range of the tabulated locus.
inline constexpr double coolest_locus_kelvin = 1000;
inline constexpr double hottest_locus_kelvin = 25000;

/// Chromaticity of the Planckian radiator at `kelvin` (1000–25 000; asserted), CIE 1931 observer and
/// c2 = 1.4388e-2 m·K, in CIE 1960 u, v. Interpolated in a table, so that it needs no spectra: within 1e-7 of
/// the sum over 360–830 nm in steps of 1 nm.
Ucs1960 planckian_locus(double kelvin);

}  // namespace tonemend
