#pragma once

#include <cstdint>

#include "colour/lab.h"
#include "practice/lamp.h"
#include "practice/wet_surface.h"

namespace tonemend {

/// A stained patch that dries, in two stages as drying goes: a film of liquid leaves at a constant rate, then
/// what the fibres hold leaves ever more slowly. Minutes count from when the stain was wiped off.
struct DryingPatch {
    Bands body{};              ///< the dry, stained wood
    SurfaceFill wet;           ///< as it was wiped off
    double film_minutes = 0;   ///< constant rate: until no film is left
    double fibre_minutes = 1;  ///< falling rate: dF/dt = −F^order / fibre_minutes for the filled share F
    double order = 1;          ///< 1 to 1.4; over 1 the end drags on
    double deep_share = 0;  ///< of the fibres' liquid that lies deep and leaves `deep_slower` times as slowly
    double deep_slower = 1;
    double gust = 0;           ///< swing of the rate as the shop's air moves, relative, 0..0.3
    double gust_minutes = 10;  ///< its period
    double gust_phase = 0;     ///< radians

    /// What is left on and in the wood.
    SurfaceFill at(double minutes) const;
    Lab lab(const Lamp& lamp, double minutes) const;
    Lab dry_lab(const Lamp& lamp) const;
    /// The first minute from which on the colour stays within `de2000` of the dry one, to a thousandth.
    double settled_after(const Lamp& lamp, double de2000) const;
};

/// How evenly stains dry in a shop: the most that is drawn of each.
struct DryingShop {
    double least_film = 0.02, most_film = 0.08;      ///< share of the typical time that the film takes
    double least_covered = 0.1, most_covered = 0.5;  ///< share of the area under that film at first
    double most_order = 1.1;
    double most_deep_share = 0;  ///< half of the patches have none
    double most_gust = 0.08;
};
/// Stain wiped off well, air at rest.
inline constexpr DryingShop steady_shop{};
/// Stain left wet here and there, doors opening, thick stain in deep pores.
inline constexpr DryingShop rough_shop{0.05, 0.3, 0.2, 0.9, 1.3, 0.4, 0.25};

/// A stain of an earth colourant on one of the bench's woods that takes about `typical_minutes` to settle;
/// times, liquid, air and colour are drawn. The time itself is drawn by a factor of e^0.45 (one standard
/// deviation) about that.
DryingPatch draw_drying(double typical_minutes, const DryingShop& shop, std::uint64_t seed);

}  // namespace tonemend
