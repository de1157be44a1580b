#pragma once

namespace tonemend {

/// Share of light that a smooth film of refractive index 1.5 mirrors at its surface, and the share of diffuse
/// light from below that it turns back inside: the constants that are used most with Saunderson's correction.
/// k1 is Fresnel's ((n − 1)/(n + 1))²; k2 is 0.596 by Fresnel's equations over the hemisphere, less where
/// light below is not wholly diffuse.
inline constexpr double usual_k1 = 0.04, usual_k2 = 0.6;

/// Reflectance as measured, mirror reflection included, of a body of reflectance `body` (0..1) under a film:
/// k1 + (1 − k1)(1 − k2)·R / (1 − k2·R). A black body gives k1, a white one 1. Source: J. L. Saunderson,
/// "Calculation of the color of pigmented plastics", J. Opt. Soc. Am. 32 (1942), 727.
double saunderson(double body, double k1 = usual_k1, double k2 = usual_k2);
/// The body's reflectance from the measured one (at least k1): the inverse of saunderson.
double saunderson_body(double measured, double k1 = usual_k1, double k2 = usual_k2);

/// A clear film on wood, or liquid in it, as a camera straight above sees it under a lamp to one side.
struct ClearFilm {
    double k1 = usual_k1;  ///< gives the refractive index too
    double k2 = usual_k2;
    double wetting = 0;  ///< natural logarithm of what K/S of the wood grows by as fibres lose scattering
    double density = 0;  ///< optical density of one pass through the film
    double haze = 0;     ///< reflectance that a film's own roughness adds
};

/// Reflectance seen through the film, for wood that has reflectance `bare` (0..1) without it. As
/// Saunderson's, but that a camera takes what leaves straight up, (1 − k1)/n² of the light below with n = (1
/// + √k1)/(1 − √k1), not the hemisphere's (1 − k2); and that what the film mirrors passes the camera by, but
/// for the haze.
double through_film(double bare, const ClearFilm& film);

}  // namespace tonemend
