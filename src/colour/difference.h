#pragma once

#include "colour/lab.h"

namespace tonemend {

/// CIEDE2000 and its parts (ISO/CIE 11664-6). The parts are the unweighted differences sample − reference.
struct Ciede2000 {
    double value = 0;     ///< ΔE00, 0 for equal colours; may exceed 100 for saturated pairs
    double dL = 0;        ///< ΔL′
    double dC = 0;        ///< ΔC′
    double dH = 0;        ///< ΔH′
    double rotation = 0;  ///< R_T, the coefficient of the chroma–hue cross term, at most 0
};

/// CIEDE2000 with parametric factors kL = kC = kH = 1. Symmetric in its arguments up to the signs of the
/// parts. Source: Sharma, Wu, Dalal, "The CIEDE2000 color-difference formula", Color Res. Appl. 30 (2005).
Ciede2000 ciede2000(const Lab& reference, const Lab& sample);

/// ΔE*ab, the Euclidean distance in CIELAB (CIE 15:2018, 8.2.3).
double delta_e_76(const Lab& reference, const Lab& sample);

/// ΔE*94 with the graphic-arts weights kL = 1, K1 = 0.045, K2 = 0.015 (CIE 116-1995). Not symmetric: the
/// weights come from the reference's chroma.
double delta_e_94(const Lab& reference, const Lab& sample);

}  // namespace tonemend
