#pragma once

#include <array>

#include "calibrate/calibration.h"
#include "measure/normal_draws.h"

namespace tonemend {

/// What the light at two places, compared with the light at the card, may be wrong by; drawn at random.
///
/// Without a flat field: a slope as large as the one that is seen, which was not corrected. With one: its own
/// covariance between the places, a part that the channels share and each channel's own; and the slope that
/// the paper still shows, if that is more than noise (twice its standard uncertainty).
class LightErrors {
  public:
    LightErrors(const Calibration& calibration, const Point& first, const Point& second);
    /// What each channel's light is multiplied by, at the first and at the second place.
    std::array<Vector3, 2> draw(NormalDraws& normal) const;

  private:
    std::array<Point, 2> from_card_{};
    double slope_x_ = 0, slope_y_ = 0;  // standard uncertainty
    bool evened_ = false;
    // Cholesky factor of the covariance between the places, of the common part.
    double first_ = 0, tie_ = 0, second_ = 0;
    double channel_ = 0;  // a channel's own part, as a share of the common one
};

}  // namespace tonemend
