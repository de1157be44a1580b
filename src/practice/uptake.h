#pragma once

#include "practice/colourant.h"
#include "practice/wood.h"

namespace tonemend {

/// How a colourant is put on.
struct Application {
    double grit = 180;    ///< the last sanding grit before staining, 60..600; a smaller number is coarser
    int coats = 1;        ///< at least 1
    double dilution = 1;  ///< parts of the thinned mixture to one part of colourant, at least 1
};

/// How much of a colourant stays on the wood, as a multiple of one full coat at 180 grit. `darkness` is that
/// of wood_k_over_s. Common practice, no source: pigment lodges in scratches, so coarser sanding takes more
/// of it, the more so on soft even-grained wood, and in pores, so the figure takes more than the ground; dye
/// soaks in and hardly cares for grit; each further coat adds less than the one before, and a wiped-off
/// pigment's second coat little.
double uptake(const WoodKind& wood, ColourantKind kind, const Application& application, double darkness);

}  // namespace tonemend
