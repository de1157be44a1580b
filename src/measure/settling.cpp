#include "measure/settling.h"

#include <algorithm>
#include <cmath>

#include "colour/difference.h"
#include "measure/normal_draws.h"

namespace tonemend {
namespace {

using WeighedCurve = SettlingCurves::Curve;

// What is believed of last value and size before a reading: wet wood is darker than dry (common practice, no
// source), so L* begins lower.
constexpr std::array<double, 3> usual_final{45, 8, 20}, final_spread{40, 20, 30};
constexpr std::array<double, 3> usual_size{-5, 0, 0}, size_spread{6, 3, 4};

constexpr double far_less_likely = -9;  // natural logarithm of a share that does not count
constexpr double reach = 3.5;           // of the prior's spread, either way
constexpr double coarse_step = 0.35;    // in the logarithm of the scale
constexpr int fine_steps = 16;
// A curve may begin later than the readings, as drying's own stages do; what lies before it costs as much as
// if it were so many times less likely (natural logarithm, a point).
constexpr double left_out = 2.5;
constexpr std::array<double, 6> first_shares{0.04, 0.08, 0.14, 0.22, 0.32, 0.45};

double squared(double value) {
    return value * value;
}

// Fits last value and size of each axis to the points from `first` on under one shape (linear, normal prior),
// and adds the logarithm of the points' probability under it.
WeighedCurve fit_shape(std::span<const SettlingPoint> points, std::size_t first,
                       const WeighedShape& candidate) {
    WeighedCurve curve{candidate.shape, points[first].seconds, {}, candidate.log_prior};
    curve.weight -= left_out * static_cast<double>(first);
    const double rate = candidate.shape.rate();
    std::array<double, 3> s1{}, sg{}, sgg{}, sy{}, sgy{};
    for (const SettlingPoint& point : points.subspan(first)) {
        const double left = candidate.shape.left_at(rate * (point.seconds - curve.begin));
        for (std::size_t axis = 0; axis < 3; ++axis) {
            const double w = 1 / point.variance[axis], y = point.lab[axis] - usual_final[axis];
            s1[axis] += w, sg[axis] += w * left, sgg[axis] += w * left * left;
            sy[axis] += w * y, sgy[axis] += w * left * y;
            curve.weight -= 0.5 * w * y * y;
        }
    }
    for (std::size_t axis = 0; axis < 3; ++axis) {
        const double p_final = 1 / squared(final_spread[axis]), p_size = 1 / squared(size_spread[axis]);
        const double a = s1[axis] + p_final, b = sg[axis], c = sgg[axis] + p_size;
        const double u = sy[axis], v = sgy[axis] + p_size * usual_size[axis];
        const double determinant = a * c - b * b;
        SettlingCurves::Line& line = curve.axes[axis];
        line.final_variance = c / determinant, line.covariance = -b / determinant;
        line.size_variance = a / determinant;
        const double off = line.final_variance * u + line.covariance * v;
        line.size = line.covariance * u + line.size_variance * v;
        line.final = usual_final[axis] + off;
        // What depends neither on the shape nor on the points taken is left out.
        curve.weight += 0.5 * (u * off + v * line.size) - 0.5 * std::log(determinant);
    }
    return curve;
}

// Turns logarithms of weights into probabilities; drops what hardly counts.
void normalise(std::vector<WeighedCurve>& curves) {
    double most = curves.front().weight, sum = 0;
    for (const WeighedCurve& curve : curves) most = std::max(most, curve.weight);
    std::erase_if(curves, [&](const WeighedCurve& curve) { return curve.weight < most + far_less_likely; });
    for (WeighedCurve& curve : curves) sum += curve.weight = std::exp(curve.weight - most);
    for (WeighedCurve& curve : curves) curve.weight /= sum;
}

// The points from which on a curve may hold: the first, and those nearest to some shares of the time.
std::vector<std::size_t> possible_firsts(std::span<const SettlingPoint> points) {
    std::vector<std::size_t> firsts{0};
    constexpr std::size_t fewest = 3;
    for (const double share : first_shares) {
        std::size_t first = firsts.back();
        while (first < points.size() && points[first].seconds < share * points.back().seconds) ++first;
        if (first > firsts.back() && first + fewest <= points.size()) firsts.push_back(first);
    }
    return firsts;
}

std::vector<WeighedCurve> fit_shapes(std::span<const SettlingPoint> points,
                                     const std::vector<std::size_t>& firsts,
                                     const std::vector<WeighedShape>& shapes) {
    std::vector<WeighedCurve> curves;
    curves.reserve(shapes.size() * firsts.size());
    for (const std::size_t first : firsts)
        for (const WeighedShape& shape : shapes) curves.push_back(fit_shape(points, first, shape));
    normalise(curves);
    return curves;
}

// First over all scales, then closely over the likely ones.
std::vector<WeighedCurve> fit_points(std::span<const SettlingPoint> points, const SettlingPrior& prior) {
    const double widest = std::exp(reach * prior.spread), middle = 60 * prior.minutes;
    const int steps = static_cast<int>(2 * reach * prior.spread / coarse_step) + 2;
    const auto coarse = fit_shapes(points, possible_firsts(points),
                                   make_shapes(prior, middle / widest, middle * widest, steps));
    double shortest = middle * widest, longest = middle / widest;
    for (const WeighedCurve& curve : coarse) {
        shortest = std::min(shortest, curve.shape.scale);
        longest = std::max(longest, curve.shape.scale);
    }
    std::vector<std::size_t> firsts;
    for (const std::size_t first : possible_firsts(points))
        if (std::any_of(coarse.begin(), coarse.end(),
                        [&](const WeighedCurve& curve) { return curve.begin == points[first].seconds; }))
            firsts.push_back(first);
    const double margin = std::exp(coarse_step);
    return fit_shapes(points, firsts, make_shapes(prior, shortest / margin, longest * margin, fine_steps));
}

struct CurveMoments {
    double mean = 0, variance = 0;
};

// Of one axis at `seconds` after the first reading, over all curves.
CurveMoments moments_at(const std::vector<WeighedCurve>& curves, std::size_t axis, double seconds) {
    CurveMoments result;
    double squares = 0;
    for (const WeighedCurve& curve : curves) {
        const double left = curve.shape.left(std::max(0.0, seconds - curve.begin));
        const SettlingCurves::Line& line = curve.axes[axis];
        const double mean = line.final + line.size * left;
        const double variance =
            line.final_variance + 2 * left * line.covariance + left * left * line.size_variance;
        result.mean += curve.weight * mean;
        squares += curve.weight * (mean * mean + variance);
    }
    result.variance = std::max(0.0, squares - result.mean * result.mean);
    return result;
}

Lab lab_of(const Vector3& values) {
    return {values[0], values[1], values[2]};
}

// One draw of everything that a curve leaves open.
struct SettlingDraw {
    Vector3 final{}, size{};
    const SettlingShape* shape = nullptr;

    double away(double part) const {
        return ciede2000(
                   lab_of({final[0] + part * size[0], final[1] + part * size[1], final[2] + part * size[2]}),
                   lab_of(final))
            .value;
    }
    // Seconds from the beginning until within settled_within.
    double settled() const {
        double part = 1;
        for (int i = 0; i < 3; ++i) part *= settled_within / std::max(away(part), 1e-9);
        return part >= 1 ? 0 : shape->time_of(part);
    }
};

SettlingDraw draw_from(const WeighedCurve& curve, NormalDraws& normal) {
    SettlingDraw result;
    result.shape = &curve.shape;
    for (std::size_t axis = 0; axis < 3; ++axis) {
        const SettlingCurves::Line& line = curve.axes[axis];
        const double one = normal(), other = normal();
        const double spread = std::sqrt(line.final_variance), tied = line.covariance / spread;
        result.final[axis] = line.final + spread * one;
        result.size[axis] =
            line.size + tied * one + std::sqrt(std::max(0.0, line.size_variance - tied * tied)) * other;
    }
    return result;
}

Believed belief_of(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const auto at = [&](double share) {
        return values[static_cast<std::size_t>(std::lround(share * static_cast<double>(values.size() - 1)))];
    };
    return {at(0.5), at(0.025), at(0.975)};
}

}  // namespace

SettlingCurves::SettlingCurves(std::span<const TimedLab> readings, const SettlingPrior& prior)
    : begin_(readings[0].seconds) {
    const std::array<double, 3> scatter = find_scatter(readings);
    for (std::size_t axis = 0; axis < 3; ++axis) noise_[axis] = std::hypot(scatter[axis], 0.03);
    const auto points = gather_points(readings, weigh_by_neighbours(readings, scatter), scatter);
    wet_ = lab_of(points.front().lab);
    curves_ = fit_points(points, prior);
}

SettlingFit SettlingCurves::at(double when) const {
    constexpr int draws = 400;
    const double age = std::max(0.0, when - begin_);
    SettlingFit fit;
    Vector3 now{}, final{};
    for (std::size_t axis = 0; axis < 3; ++axis) {
        const CurveMoments here = moments_at(curves_, axis, age);
        now[axis] = here.mean;
        fit.predicted_u95[axis] = 1.96 * std::sqrt(here.variance + squared(noise_[axis]));
    }
    std::vector<double> remaining, minutes, scales;
    std::array<std::vector<double>, 3> finals;
    NormalDraws normal(19740517);
    // Evenly spaced through the curves' weights.
    double passed = 0, within = 0;
    int drawn = 0;
    for (const WeighedCurve& curve : curves_) {
        passed += curve.weight;
        fit.two_stages += curve.shape.two_stages() ? curve.weight : 0;
        for (; drawn < draws && (drawn + 0.5) / draws <= passed + 1e-12; ++drawn) {
            const SettlingDraw one = draw_from(curve, normal);
            remaining.push_back(one.away(curve.shape.left(std::max(0.0, age - curve.begin))));
            within += remaining.back() <= settled_within ? 1.0 / draws : 0;
            minutes.push_back(std::max(0.0, one.settled() + curve.begin - age) / 60);
            scales.push_back((curve.begin + curve.shape.scale) / 60);
            for (std::size_t axis = 0; axis < 3; ++axis) finals[axis].push_back(one.final[axis]);
        }
    }
    for (std::size_t axis = 0; axis < 3; ++axis) {
        const Believed last = belief_of(finals[axis]);
        final[axis] = last.middle;
        fit.final_u95[axis] = (last.high - last.low) / 2;
    }
    fit.now = lab_of(now), fit.wet = wet_, fit.final = lab_of(final);
    fit.remaining = belief_of(remaining);
    fit.minutes = belief_of(minutes);
    fit.scale_minutes = belief_of(scales).middle;
    fit.surely_within = within;
    return fit;
}

}  // namespace tonemend
