#pragma once

#include <array>
#include <vector>

#include "calibrate/calibration.h"
#include "measure/normal_draws.h"
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
/// the camera that is no standard observer, and light that changes across the picture (see LightErrors), by
/// 2,000 Monte-Carlo draws (JCGM 101:2008), always the same ones.
PairUncertainty propagate(const Calibration& calibration, const Reading& original, const Reading& repair);

/// What both regions may truly be.
struct PairDraw {
    Lab original, repair;
};

/// The 2,000 draws that `propagate` judges by. Errors that pictures of one card, one wood and one camera
/// share come from `shared`: the card and its steps, what the tone curve and black level leave open, and
/// grain. The light, what the camera's colours leave open under it, and rounding come from `own`. Two
/// pictures drawn with `shared` of one seed thus err alike in the first. The two may be one and the same.
std::vector<PairDraw> draw_pairs(const Calibration& calibration, const Reading& original,
                                 const Reading& repair, NormalDraws& shared, NormalDraws& own);

/// The half width that 95 % of `distances` (over 0 of them; asserted) lie within.
double half_width_95(std::vector<double> distances);

}  // namespace tonemend
