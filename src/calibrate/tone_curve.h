#pragma once

#include <string>
#include <vector>

namespace tonemend {

/// One neutral step as one channel sees it.
struct CurvePoint {
    double seen = 0;    ///< what the picture says, linear by the frame's own decoding
    double truth = 0;   ///< what a faithful camera would say; 1 for the perfect diffuser
};

enum class CurveKind {
    gain,             ///< one step: black is taken to be `offset`
    offset_and_gain,  ///< two to five steps
    monotone          ///< six or more steps
};

/// Takes one channel's decoded linear value to a value proportional to light, 1 for the perfect diffuser under the card's
/// light. Rising everywhere: a brighter sample never becomes a darker one. A straight line g·(v − o) fitted with errors
/// weighed by lightness; with six or more steps a correction on top of it, in the cube-root domain, that passes through every
/// step: a natural cubic spline whose slopes are limited as Hyman (SIAM J. Sci. Stat. Comput. 4, 1983) does, so that
/// it stays monotone. Beyond the outermost steps the correction holds its end values.
class ToneCurve {
  public:
    ToneCurve() = default;
    /// `points` may be in any order; at least one. `offset` is the known black level, used when there is one point.
    /// The seen values must rise with the true ones (see steps_in_order); asserted.
    explicit ToneCurve(std::vector<CurvePoint> points, double offset = 0.0);

    double operator()(double seen) const;
    CurveKind kind() const { return kind_; }
    const std::vector<CurvePoint>& points() const { return points_; }
    double gain() const { return gain_; }
    double offset() const { return offset_; }

    /// How far each step is from the curve that the other steps alone give, as a share of its true value. Empty for one
    /// point; the end steps, which would be extrapolated, are left out when there are three or more.
    std::vector<double> leave_one_out() const;

  private:
    double line(double seen) const { return gain_ * (seen - offset_); }
    void fit_line();
    void fit_spline();

    CurveKind kind_ = CurveKind::gain;
    std::vector<CurvePoint> points_;
    double gain_ = 1.0;
    double offset_ = 0.0;
    std::vector<double> knot_, value_, slope_;  // correction: cube root of line → cube root of truth
};

/// True when sorting by truth sorts by what is seen too, with no two alike.
bool steps_in_order(std::vector<CurvePoint> points);

}  // namespace tonemend
