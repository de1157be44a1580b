#pragma once

#include <array>

#include "advise/model/wide_channels.h"

namespace tonemend {

/// How a thing that is put on wood changes its colour.
enum class ColourantGroup {
    dye,      ///< soaks into the fibres and absorbs among them: its K adds to the wood's, whose S is 1
    pigment,  ///< lies on the wood as a layer that absorbs and scatters, so that it also hides
    bleach,   ///< takes a share of the wood's own K away
};

/// What a full-strength first coat on the usual wood does: K in each channel (a dye's beside S = 1, a
/// pigment's as KX, a bleach's as what the logarithm of the wood's K falls by) and, for a pigment, SX.
struct CoatStrength {
    WideChannels absorption{};
    double scattering = 0;
};

/// Reflectance after `amount` of a coat (1: a full one) over `before`. Dye: K/S of a thick layer adds
/// (Duncan's additivity: D. R. Duncan, Proc. Phys. Soc. 52 (1940)). Pigment: a layer over a backing (Kubelka
/// 1948; see layer_reflectance). More never goes lighter for a dye.
WideChannels after_coat(const WideChannels& before, ColourantGroup group, const CoatStrength& strength,
                        double amount);

}  // namespace tonemend
