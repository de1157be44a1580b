#pragma once

#include "colour/lab.h"
#include "colour/xyz.h"

namespace tonemend {

/// Two surfaces' tristimulus values under one light.
struct PairUnderLight {
    XYZ original, repair;
};

/// How far two surfaces part when the light changes, had they matched under the first.
struct MetamerismIndex {
    double delta_e_ab = 0;  ///< CIE 1976
    double de2000 = 0;
};

/// The special metamerism index for a change of light (CIE 15:2018, 9.2) with the multiplicative correction:
/// the repair's X, Y and Z under the second light are each multiplied by original / repair under the first.
/// `second_white` is the white to which `second` belongs. All values over 0.
MetamerismIndex special_metamerism_index(const PairUnderLight& first, const PairUnderLight& second,
                                         const WhitePoint& second_white);

}  // namespace tonemend
