#pragma once

#include "practice/bands.h"

namespace tonemend {

/// What has soaked into a surface of wood and lies on it: water or spirits that will leave again, or a clear
/// finish that stays.
struct SurfaceFill {
    double index = 1.5;            ///< refractive index of the liquid or film, 1.3..1.6
    double filled = 0;             ///< share of the air between the outer fibres that it has taken, 0 dry..1
    double covered = 0;            ///< share of the area under a closed, smooth film, 0..1
    double scattering_lost = 0.1;  ///< share of the wood's scattering that goes when all is filled, 0..0.9
    double amber = 0;              ///< optical density of the film at 400 nm, straight through
    double amber_decay = 60;       ///< nm in which the amber falls to 1/e
    double haze = 0;  ///< reflectance that a film's own roughness adds: 0 gloss … 0.02 dead matt
};

/// Share of diffuse light that a smooth surface turns back inside a medium of refractive index `index` over
/// air: Fresnel's equations summed over the hemisphere; 0.596 at 1.5.
double internal_diffuse_reflection(double index);

/// Reflectance of wood with `fill`, lit at 45° and seen from straight above; `body` is what it reflects with
/// nothing on it. Filled fibres scatter less (Kubelka–Munk, S alone changes); under a film light enters and
/// leaves by Fresnel's transmittances, is turned back inside, and passes the amber film at its own slant each
/// time. Sources: S. Twomey, C. F. Bohren, J. L. Mergenthaler, "Reflectance and albedo differences between
/// wet and dry surfaces", Appl. Opt. 25 (1986), for the lost scattering; J. Lekner, M. C. Dorf, "Why some
/// things are darker when wet", Appl. Opt. 27 (1988), for the film; both from memory.
Bands surface_reflectance(const Bands& body, const SurfaceFill& fill);

}  // namespace tonemend
