#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "practice/bands.h"

namespace tonemend {

/// A kind of wood: invented smooth spectra and grain, named for the kind that they resemble. K/S falls
/// exponentially from the blue to the red, as lignin's absorption does, so reflectance rises smoothly.
struct WoodKind {
    std::string name;
    double ground_k = 0;      ///< K/S of the ground at 400 nm
    double decay_nm = 0;      ///< K/S falls by 1/e in so many nm
    double floor_k = 0;       ///< K/S that all wavelengths share: greyness
    double redness = 0;       ///< K/S of a broad band at 540 nm that makes red-brown woods red
    double figure_depth = 0;  ///< natural log of K/S of the figure over K/S of the ground
    double figure_share = 0;  ///< long-run share of the figure, pores not counted, 0..0.5; 0: a plain wood
    double pore_share = 0;    ///< long-run share of open pores, 0..0.1
    double along_px = 0;   ///< correlation length of the figure along the grain in a picture 1600 pixels wide
    double across_px = 0;  ///< and across it
    double softness =
        0;  ///< 0 hard and close-grained … 1 soft and even: how much sanding grit matters to pigment
};

/// The kinds that exist: holly, pine, maple, birch, oak, walnut, cherry, mahogany, ash.
const std::vector<WoodKind>& wood_kinds();
/// Throws InputError that lists the names.
const WoodKind& find_wood(std::string_view name);

/// K/S of the bare wood, S taken as 1. `darkness` is 0 for the ground, 1 for the figure, and may lie outside
/// 0..1 by 0.5: the logarithm of K/S is linear in it.
Bands wood_k_over_s(const WoodKind& wood, double darkness);

}  // namespace tonemend
