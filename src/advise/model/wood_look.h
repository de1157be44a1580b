#pragma once

#include "colour/lab.h"

namespace tonemend {

/// The two colours of a figured wood: the lighter ground, which dye sets, and the darker grain and pores,
/// which pigment sets. CIELAB (D50, 2°).
struct WoodLook {
    Lab ground, figure;       ///< in plain wood `figure` repeats `ground`
    double figure_share = 0;  ///< of the area, 0..1; 0: plain wood

    bool plain() const { return figure_share <= 0; }
};

/// Whether a reading of a surface can be so: L* −20 to 150, a* and b* within ±200. No number is.
bool can_be_seen(const Lab& lab);
/// Plain wood of one colour.
WoodLook plain_look(const Lab& lab);
/// What the two look like from afar: mixed in light.
Lab whole_of(const WoodLook& look);

/// A look as it was read.
struct ReadLook {
    WoodLook look;
    double u = 0.15;  ///< standard deviation of each of L*, a*, b* of ground and of figure
};

}  // namespace tonemend
