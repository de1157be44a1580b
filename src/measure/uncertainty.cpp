#include "measure/uncertainty.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <vector>

#include <Eigen/Core>

#include "colour/difference.h"
#include "measure/light_errors.h"
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

Lab moved(const Lab& lab, const Vector3& by, double times) {
    return {lab.L + times * by[0], lab.a + times * by[1], lab.b + times * by[2]};
}

// One region's means and what moves them.
class DisturbedRegion {
  public:
    DisturbedRegion(const Calibration& calibration, const Reading& reading)
        : mean_(reading.sampled.mean), spread_(cholesky(reading.sampled.covariance)) {
        const Lab plain = to_lab(calibration.to_xyz(mean_), d50_icc);
        by_samples_ = {reading.lab.L - plain.L, reading.lab.a - plain.a, reading.lab.b - plain.b};
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
        double card = 0, exponent = 0, black = 0;
        ModelChange model;  // the sum of the characterisation's doubt
    };

    Lab draw(const Calibration& calibration, const CommonErrors& errors, const Vector3& light,
             NormalDraws& shared, NormalDraws& own) const {
        const Vector3 sampling = spread_ * Vector3{shared(), shared(), shared()};
        Vector3 rgb{};
        for (std::size_t c = 0; c < 3; ++c) {
            double value = mean_[c] + sampling[c] + coding_u_[c] * own();
            for (std::size_t k = 0; k < sensitivities_[c].size(); ++k) {
                value += sensitivities_[c][k] * (errors.step_all[k] + errors.step[c][k]);
            }
            const double relative = std::max(mean_[c], 1e-4) / top_[c];
            value *= 1.0 + errors.card + errors.exponent * std::log(relative);
            rgb[c] = value * light[c] + errors.black * (1.0 - mean_[c]);
        }
        const XYZ xyz = calibration.to_xyz(rgb);
        const XYZ by = errors.model.of(calibration.characterisation.model.to_working * rgb);
        return moved(to_lab({xyz.X + by.X, xyz.Y + by.Y, xyz.Z + by.Z}, d50_icc), by_samples_, 1);
    }

  private:
    Vector3 mean_;
    Matrix3 spread_;
    std::array<std::vector<double>, 3> sensitivities_;
    Vector3 top_{};
    Vector3 by_samples_{};  // the correction by samples, CIELAB
    Vector3 coding_u_{};    // what storing the picture leaves open in the mean
};

void add(Matrix3& sum, const Matrix3& change, double times) {
    for (std::size_t row = 0; row < 3; ++row)
        for (std::size_t column = 0; column < 3; ++column)
            sum.m[row][column] += times * change.m[row][column];
}

// True when samples of known colour tell what camera and card do to woods like them.
bool by_samples(const Calibration& calibration) {
    return !calibration.local.empty();
}

// Errors of both regions in CIELAB that are drawn by their covariance: what no model of the camera explains,
// or what samples leave open. The sum of a shared part and half of a parting one, either way.
struct UnexplainedErrors {
    Matrix3 common, apart;  // roots of the covariances

    UnexplainedErrors(const Calibration& calibration, const Reading& original, const Reading& repair) {
        const Characterisation& characterisation = calibration.characterisation;
        const double distance = delta_e_76(original.lab, repair.lab);
        const double contrast = characterisation.contrast * distance;
        Matrix3 shared, parting;
        if (by_samples(calibration)) {
            const auto left = calibration.local.covariance(original.lab, repair.lab);
            for (std::size_t axis = 0; axis < 3; ++axis) {
                const Eigen::Matrix2d& pair = left[axis];
                shared.m[axis][axis] = (pair(0, 0) + pair(1, 1) + 2 * pair(0, 1)) / 4;
                parting.m[axis][axis] = pair(0, 0) + pair(1, 1) - 2 * pair(0, 1);
            }
        } else {
            const Unexplained& u = characterisation.unexplained;
            shared = u.common, parting = u.apart;
            add(parting, u.apart_share, distance * distance);
            // Each region has half of what parts them; both together keep the variance that a wood has.
            add(shared, parting, -0.25);
        }
        add(parting, Matrix3::identity(), contrast * contrast);
        common = cholesky(shared), apart = cholesky(parting);
    }
};

DisturbedRegion::CommonErrors draw_common(const Calibration& calibration, NormalDraws& shared,
                                          NormalDraws& own) {
    const CalibrationUncertainty& u = calibration.uncertainty;
    DisturbedRegion::CommonErrors errors;
    std::size_t steps = 0;
    for (const ToneCurve& curve : calibration.curves) steps = std::max(steps, curve.points().size());
    const double half = u.step / std::sqrt(2.0);
    for (std::size_t k = 0; k < steps; ++k) errors.step_all.push_back(half * shared());
    for (std::size_t c = 0; c < 3; ++c) {
        for (const CurvePoint& point : calibration.curves[c].points()) {
            const double seen_u = calibration.curves[c].slope(point.seen) * point.seen_u / point.truth;
            errors.step[c].push_back(std::hypot(half, seen_u) * shared());
        }
    }
    errors.card = by_samples(calibration) ? 0 : u.card * shared();
    errors.exponent = u.exponent * shared();
    errors.black = u.black * shared();
    if (by_samples(calibration)) return errors;
    for (const ModelChange& change : calibration.characterisation.doubt) {
        const double times = own();
        add(errors.model.linear, change.linear, times);
        add(errors.model.roots, change.roots, times);
    }
    return errors;
}

}  // namespace

double half_width_95(std::vector<double> distances) {
    assert(!distances.empty());
    const auto at =
        distances.begin() + static_cast<std::ptrdiff_t>(0.95 * static_cast<double>(distances.size()));
    std::nth_element(distances.begin(), at, distances.end());
    return *at;
}

std::vector<PairDraw> draw_pairs(const Calibration& calibration, const Reading& original,
                                 const Reading& repair, NormalDraws& shared, NormalDraws& own) {
    const DisturbedRegion first(calibration, original), second(calibration, repair);
    const LightErrors light_errors(calibration, original.centre, repair.centre);
    const UnexplainedErrors unexplained(calibration, original, repair);
    std::vector<PairDraw> draws;
    draws.reserve(draws_count);
    for (int i = 0; i < draws_count; ++i) {
        const auto common = draw_common(calibration, shared, own);
        const auto light = light_errors.draw(own);
        const Vector3 alike = unexplained.common * Vector3{own(), own(), own()};
        const Vector3 parting = unexplained.apart * Vector3{own(), own(), own()};
        const Lab o = first.draw(calibration, common, light[0], shared, own);
        const Lab r = second.draw(calibration, common, light[1], shared, own);
        draws.push_back({moved(moved(o, alike, 1), parting, -0.5), moved(moved(r, alike, 1), parting, 0.5)});
    }
    return draws;
}

PairUncertainty propagate(const Calibration& calibration, const Reading& original, const Reading& repair) {
    NormalDraws normal(19970514);
    const double measured = ciede2000(original.lab, repair.lab).value;
    std::array<std::vector<double>, 10> distances;
    for (auto& list : distances) list.reserve(draws_count);
    for (const auto& [o, r] : draw_pairs(calibration, original, repair, normal, normal)) {
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
        result.original_u95[k] = half_width_95(std::move(distances[k]));
        result.repair_u95[k] = half_width_95(std::move(distances[3 + k]));
        result.difference_u95[k] = half_width_95(std::move(distances[6 + k]));
    }
    result.de2000_u95 = half_width_95(std::move(distances[9]));
    return result;
}

}  // namespace tonemend
