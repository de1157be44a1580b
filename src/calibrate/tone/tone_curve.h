#pragma once

#include <optional>
#include <string>
#include <vector>

#include "calibrate/tone/curve_point.h"
#include "calibrate/tone/smooth_departure.h"

namespace tonemend {

enum class CurveKind {
    gain,             ///< one step: black is taken to be `offset`
    offset_and_gain,  ///< two to five steps
    monotone          ///< six or more steps
};

/// Takes one channel's decoded linear value to a value proportional to light, 1 for the perfect diffuser
/// under the card's light. Rising everywhere: a brighter sample never becomes a darker one. One step: a gain.
/// Two to five: a straight line, errors weighed by lightness. Six or more: a smooth departure from sRGB with
/// its own black and gain, and on top of it, in the cube-root domain, what is left at the steps, so that the
/// curve passes through every one: a natural cubic spline whose slopes are limited as Hyman (SIAM J. Sci.
/// Stat. Comput. 4, 1983) does, so that it stays monotone. Beyond the outermost steps what is left there
/// holds.
class ToneCurve {
  public:
    ToneCurve() = default;
    /// `points` may be in any order; at least one, none with a true value under `black_truth`. `black` is the
    /// seen value that is known to mean no light; absent: found from two or more points, 0 with one. The seen
    /// values must rise with the true ones (see steps_in_order); asserted.
    explicit ToneCurve(std::vector<CurvePoint> points, std::optional<double> black = std::nullopt);

    double operator()(double seen) const;
    CurveKind kind() const { return kind_; }
    const std::vector<CurvePoint>& points() const { return points_; }
    /// Light for a decoded value of 1 over black, near the brightest step.
    double gain() const;
    /// The decoded value that means no light.
    double offset() const { return offset_; }
    /// The seen value of black as the constructor was given it.
    const std::optional<double>& known_black() const { return black_; }

    /// How far each step is from the curve that the other steps alone give, as a share of its true value.
    /// The end steps, which would be extrapolated, are left out; so it is empty for fewer than three points.
    std::vector<double> leave_one_out() const;

    /// The curve with `point` (an index of points()) moved by the relative change `change` of its true value.
    ToneCurve with_moved_step(std::size_t point, double change) const;
    /// Light for a small change of the decoded value, at `seen`.
    double slope(double seen) const;

  private:
    double base(double seen) const;
    void fit_line();
    void fit_departure_and_rest();
    void fit_rest();

    CurveKind kind_ = CurveKind::gain;
    std::vector<CurvePoint> points_;
    double gain_ = 1.0;
    double offset_ = 0.0;
    std::optional<double> black_;               // as given
    std::optional<SmoothDeparture> departure_;  // instead of the line, with six or more steps
    std::vector<double> knot_, value_, slope_;  // what is left: cube root of base → cube root of truth
};

/// A step of less light than this is no step but black itself.
inline constexpr double black_truth = 1e-3;

/// True when sorting by truth sorts by what is seen too, with no two alike.
bool steps_in_order(std::vector<CurvePoint> points);

}  // namespace tonemend
