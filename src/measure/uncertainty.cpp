#include "measure/uncertainty.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "colour/difference.h"
#include "measure/normal_draws.h"

namespace tonemend {
namespace {

constexpr int draws_count = 2000;

// Lower-triangular L with L·Lᵀ = matrix; entries that rounding made negative count as 0.
Matrix3 cholesky(const Matrix3& matrix) {
    Matrix3 l;
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t j = 0; j <= i; ++j) {
            double sum = matrix.m[i][j];
            for (std::size_t k = 0; k < j; ++k) sum -= l.m[i][k] * l.m[j][k];
            if (i == j) {
                l.m[i][i] = std::sqrt(std::max(0.0, sum));
            } else {
                l.m[i][j] = l.m[j][j] > 0 ? sum / l.m[j][j] : 0.0;
            }
        }
    }
    return l;
}

// The decoded value that the curve takes to `truth`.
double invert(const ToneCurve& curve, double truth) {
    double low = curve.offset() - 1.0, high = curve.offset() + 1.0;
    while (curve(high) < truth && high < 1e6) high *= 2.0;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (curve(middle) < truth ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

// Change of the region's value in one channel for a relative change of one step's true value.
std::vector<double> step_sensitivities(const ToneCurve& curve, double seen) {
    constexpr double h = 1e-3;
    const double before = curve(seen);
    std::vector<double> sensitivities;
    for (std::size_t k = 0; k < curve.points().size(); ++k) {
        sensitivities.push_back((curve.with_moved_step(k, h)(seen) - before) / h);
    }
    return sensitivities;
}

// One region's means and what moves them.
class DisturbedRegion {
  public:
    DisturbedRegion(const Calibration& calibration, const Reading& reading)
        : mean_(reading.sampled.mean), spread_(cholesky(reading.sampled.covariance)) {
        Point card{};
        for (const Point& corner : calibration.card_corners) card.x += corner.x / 4, card.y += corner.y / 4;
        from_card_ = {reading.centre.x - card.x, reading.centre.y - card.y};
        for (std::size_t c = 0; c < 3; ++c) {
            const ToneCurve& curve = calibration.curves[c];
            const double seen = invert(curve, mean_[c]);
            sensitivities_[c] = step_sensitivities(curve, seen);
            top_[c] = curve.points().back().truth;
            coding_u_[c] =
                curve.gain() * calibration.coding.mean_u(seen, reading.sampled.spread[c] / curve.gain(),
                                                         static_cast<double>(reading.pixels));
        }
    }

    struct CommonErrors {
        std::vector<double> step_all;             // a step, all channels alike
        std::array<std::vector<double>, 3> step;  // a step and channel
        double card = 0, exponent = 0, black = 0, slope_x = 0, slope_y = 0;
        Matrix3 matrix;
    };

    Lab draw(const Calibration& calibration, const CommonErrors& errors, NormalDraws& normal) const {
        const Vector3 sampling = spread_ * Vector3{normal(), normal(), normal()};
        const double light = 1.0 + errors.slope_x * from_card_.x + errors.slope_y * from_card_.y;
        Vector3 rgb{};
        for (std::size_t c = 0; c < 3; ++c) {
            double value = mean_[c] + sampling[c] + coding_u_[c] * normal();
            for (std::size_t k = 0; k < sensitivities_[c].size(); ++k) {
                value += sensitivities_[c][k] * (errors.step_all[k] + errors.step[c][k]);
            }
            const double relative = std::max(mean_[c], 1e-4) / top_[c];
            value *= 1.0 + errors.card + errors.exponent * std::log(relative);
            rgb[c] = value * light + errors.black * (1.0 - mean_[c]);
        }
        const XYZ xyz = calibration.to_xyz(rgb);
        // The matrix error acts on what is not neutral, so that white stays white.
        const Vector3 colour{xyz.X / d50_icc.X - xyz.Y, 0.0, xyz.Z / d50_icc.Z - xyz.Y};
        const Vector3 moved = errors.matrix * colour;
        return to_lab({xyz.X + moved[0] * d50_icc.X, xyz.Y + moved[1], xyz.Z + moved[2] * d50_icc.Z},
                      d50_icc);
    }

  private:
    Vector3 mean_;
    Matrix3 spread_;
    Point from_card_;
    std::array<std::vector<double>, 3> sensitivities_;
    Vector3 top_{};
    Vector3 coding_u_{};  // what storing the picture leaves open in the mean
};

DisturbedRegion::CommonErrors draw_common(const Calibration& calibration, NormalDraws& normal) {
    const CalibrationUncertainty& u = calibration.uncertainty;
    DisturbedRegion::CommonErrors errors;
    std::size_t steps = 0;
    for (const ToneCurve& curve : calibration.curves) steps = std::max(steps, curve.points().size());
    const double half = u.step / std::sqrt(2.0);
    for (std::size_t k = 0; k < steps; ++k) errors.step_all.push_back(half * normal());
    for (std::size_t c = 0; c < 3; ++c) {
        for (const CurvePoint& point : calibration.curves[c].points()) {
            const double seen_u = calibration.curves[c].slope(point.seen) * point.seen_u / point.truth;
            errors.step[c].push_back(std::hypot(half, seen_u) * normal());
        }
    }
    errors.card = u.card * normal();
    errors.exponent = u.exponent * normal();
    errors.black = u.black * normal();
    // A slope that was seen but not corrected is as uncertain as it is large.
    errors.slope_x = std::max(std::abs(calibration.light.x), calibration.light.u) * normal();
    errors.slope_y = std::max(std::abs(calibration.light.y), calibration.light.u) * normal();
    for (auto& row : errors.matrix.m) {
        for (double& entry : row) entry = u.matrix * normal();
    }
    return errors;
}

double half_width_95(std::vector<double>& distances) {
    const auto at =
        distances.begin() + static_cast<std::ptrdiff_t>(0.95 * static_cast<double>(distances.size()));
    std::nth_element(distances.begin(), at, distances.end());
    return *at;
}

}  // namespace

PairUncertainty propagate(const Calibration& calibration, const Reading& original, const Reading& repair) {
    NormalDraws normal(19970514);
    const DisturbedRegion first(calibration, original), second(calibration, repair);
    const double measured = ciede2000(original.lab, repair.lab).value;
    std::array<std::vector<double>, 10> distances;
    for (auto& list : distances) list.reserve(draws_count);
    for (int i = 0; i < draws_count; ++i) {
        const auto common = draw_common(calibration, normal);
        const Lab o = first.draw(calibration, common, normal);
        Lab r = second.draw(calibration, common, normal);
        const double contrast = calibration.uncertainty.contrast * delta_e_76(original.lab, repair.lab);
        r = {r.L + contrast * normal(), r.a + contrast * normal(), r.b + contrast * normal()};
        const std::array<double, 3> eo{o.L - original.lab.L, o.a - original.lab.a, o.b - original.lab.b};
        const std::array<double, 3> er{r.L - repair.lab.L, r.a - repair.lab.a, r.b - repair.lab.b};
        for (std::size_t k = 0; k < 3; ++k) {
            distances[k].push_back(std::abs(eo[k]));
            distances[3 + k].push_back(std::abs(er[k]));
            distances[6 + k].push_back(std::abs(er[k] - eo[k]));
        }
        distances[9].push_back(std::abs(ciede2000(o, r).value - measured));
    }
    PairUncertainty result;
    for (std::size_t k = 0; k < 3; ++k) {
        result.original_u95[k] = half_width_95(distances[k]);
        result.repair_u95[k] = half_width_95(distances[3 + k]);
        result.difference_u95[k] = half_width_95(distances[6 + k]);
    }
    result.de2000_u95 = half_width_95(distances[9]);
    return result;
}

}  // namespace tonemend
