#pragma once

#include <array>
#include <span>
#include <vector>

#include "colour/lab.h"
#include "colour/matrix3.h"
#include "measure/settling_readings.h"
#include "measure/settling_shape.h"

namespace tonemend {

/// The change that still counts: within this of its last colour a surface is said to have settled. ΔE2000.
inline constexpr double settled_within = 0.5;

/// A number as a fit knows it: half of its belief lies below `middle`, 95 % between the others.
struct Believed {
    double middle = 0, low = 0, high = 0;
};

/// What readings of a drying surface say of it at one time.
struct SettlingFit {
    Lab now;    ///< by the curve
    Lab wet;    ///< of the first reading or readings
    Lab final;  ///< when all has settled
    std::array<double, 3> final_u95{};
    Believed remaining;        ///< ΔE2000 from `now` to `final`
    Believed minutes;          ///< until within settled_within of `final`; 0: already
    double surely_within = 0;  ///< probability that `remaining` is at most settled_within, 0..1
    double scale_minutes = 0;  ///< until a sixteenth of the first change is left
    double two_stages = 0;     ///< probability of two stages against one, 0..1
    Vector3 predicted_u95{};   ///< of one further reading at that time, about `now`
};

/// Settling curves for L*, a* and b* together: one shape, sizes and last values of their own, from the first
/// reading on or from a later one, since a film that leaves has a curve of its own. All shapes are
/// weighed by how well they explain the readings and by the prior (the mean over one- and two-stage curves by
/// Bayes), so nothing is decided that the readings leave open. A reading far off its neighbours in time does
/// not count. The same readings always give the same result.
class SettlingCurves {
  public:
    /// `readings`: at least one, in order of time.
    SettlingCurves(std::span<const TimedLab> readings, const SettlingPrior& prior);
    /// What is believed at `when`, seconds on the readings' clock, at or after the first.
    SettlingFit at(double when) const;

    /// Last value and size of one axis under one shape: normal, with this mean and covariance.
    struct Line {
        double final = 0, size = 0;
        double final_variance = 0, covariance = 0, size_variance = 0;
    };
    /// One shape and what is believed of it.
    struct Curve {
        SettlingShape shape;
        double begin = 0;  ///< seconds after the first reading from which on it holds
        std::array<Line, 3> axes;
        double weight = 0;  ///< probability; all sum to 1
    };
    /// The likely ones, all within e^-9 of the likeliest.
    const std::vector<Curve>& curves() const { return curves_; }

  private:
    std::vector<Curve> curves_;
    double begin_ = 0;
    Lab wet_;
    Vector3 noise_{};  // of one reading about its curve, standard deviation
};

}  // namespace tonemend
