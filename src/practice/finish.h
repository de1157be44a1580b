#pragma once

#include "practice/bands.h"

namespace tonemend {

/// What lies on top of the stained wood.
enum class Finish { raw, clear_coat };

/// A clear coat. The defaults are a film of refractive index 1.5.
struct ClearCoat {
    double external_reflection = 0.04;  ///< k1: share of the lamp's light that the film's surface sends back
    double internal_reflection =
        0.6;              ///< k2: share of the diffuse light from below that the surface turns back
    double amber = 0.06;  ///< optical density at 400 nm of one pass through the film, ×1/e every 60 nm
};

/// Reflectance through the coat as seen under 45°/0°, where the mirror reflection goes past the eye:
/// (1 − k1)(1 − k2)R' / (1 − k2·R'), R' = R after two passes through the amber film. Below R = 1 it is always
/// darker than R. Source: J. L. Saunderson, "Calculation of the color of pigmented plastics", J. Opt. Soc.
/// Am. 32 (1942), without its specular term k1.
Bands under_clear_coat(const Bands& reflectance, const ClearCoat& coat = {});

}  // namespace tonemend
