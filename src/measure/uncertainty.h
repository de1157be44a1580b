#pragma once

#include <array>

#include "calibrate/calibration.h"
#include "measure/reading.h"

namespace tonemend {

/// 95 % half widths that follow from everything known to be uncertain, errors common to both regions kept
/// common.
struct PairUncertainty {
    std::array<double, 3> original_u95{};  ///< L*, a*, b*
    std::array<double, 3> repair_u95{};
    std::array<double, 3> difference_u95{};  ///< of ΔL*, Δa*, Δb*
    double de2000_u95 = 0;  ///< half of the draws' ΔE2000 lie nearer, 95 % within this, of the measured one
};

/// Propagates noise and grain (each region's own), the neutral steps, an unknown tone curve and black level,
/// the camera that is no standard observer, and light that changes across the picture, by 2,000 Monte-Carlo
/// draws (JCGM 101:2008), always the same ones.
PairUncertainty propagate(const Calibration& calibration, const Reading& original, const Reading& repair);

}  // namespace tonemend
