#pragma once

#include <optional>

#include "colour/chromaticity.h"

namespace tonemend {

struct ColourTemperature {
    double kelvin = 0;  ///< correlated colour temperature, 1000–25 000 K
    double duv = 0;  ///< distance from the Planckian locus in CIE 1960 u, v: over 0 greenish, under 0 pinkish
};

/// The Planckian radiator nearest to the chromaticity in CIE 1960 u, v (CIE 15:2018, 9.5). Nothing when the
/// nearest lies outside 1000–25 000 K, or farther than 0.05, where CIE 15 calls the temperature meaningless.
std::optional<ColourTemperature> correlated_colour_temperature(const Ucs1960& uv);
std::optional<ColourTemperature> correlated_colour_temperature(const WhitePoint& white);

}  // namespace tonemend
