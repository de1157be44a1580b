#include "calibrate/tone/tone_curve.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace tonemend {
namespace {

// Slopes of the natural cubic spline through (x, y): the tridiagonal system in the slopes.
std::vector<double> natural_spline_slopes(const std::vector<double>& x, const std::vector<double>& y) {
    const std::size_t n = x.size();
    std::vector<double> lower(n), diagonal(n), upper(n), right(n);
    const auto width = [&](std::size_t i) { return x[i + 1] - x[i]; };
    const auto secant = [&](std::size_t i) { return (y[i + 1] - y[i]) / width(i); };
    diagonal[0] = 2, upper[0] = 1, right[0] = 3 * secant(0);
    for (std::size_t i = 1; i + 1 < n; ++i) {
        lower[i] = width(i), upper[i] = width(i - 1), diagonal[i] = 2 * (width(i - 1) + width(i));
        right[i] = 3 * (width(i) * secant(i - 1) + width(i - 1) * secant(i));
    }
    lower[n - 1] = 1, diagonal[n - 1] = 2, right[n - 1] = 3 * secant(n - 2);
    for (std::size_t i = 1; i < n; ++i) {
        const double factor = lower[i] / diagonal[i - 1];
        diagonal[i] -= factor * upper[i - 1];
        right[i] -= factor * right[i - 1];
    }
    std::vector<double> slopes(n);
    slopes[n - 1] = right[n - 1] / diagonal[n - 1];
    for (std::size_t i = n - 1; i-- > 0;) slopes[i] = (right[i] - upper[i] * slopes[i + 1]) / diagonal[i];
    return slopes;
}

// Hyman's limit: a slope between 0 and three times the smaller neighbouring secant keeps a cubic monotone.
void limit_slopes(const std::vector<double>& x, const std::vector<double>& y, std::vector<double>& slopes) {
    const std::size_t n = x.size();
    for (std::size_t i = 0; i < n; ++i) {
        const double before = i == 0 ? (y[1] - y[0]) / (x[1] - x[0]) : (y[i] - y[i - 1]) / (x[i] - x[i - 1]);
        const double after = i + 1 == n ? before : (y[i + 1] - y[i]) / (x[i + 1] - x[i]);
        slopes[i] = std::clamp(slopes[i], 0.0, 3.0 * std::min(before, after));
    }
}

// The decoded value at which the departure says that there is no light.
double darkest_seen(const SmoothDeparture& departure) {
    double low = -0.1, high = 1;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (departure.light(middle) < 0 ? low : high) = middle;
    }
    return low;
}

}  // namespace

bool steps_in_order(std::vector<CurvePoint> points) {
    std::sort(points.begin(), points.end(), [](const auto& p, const auto& q) { return p.truth < q.truth; });
    for (std::size_t i = 1; i < points.size(); ++i) {
        if (!(points[i].seen > points[i - 1].seen && points[i].truth > points[i - 1].truth)) return false;
    }
    return true;
}

ToneCurve::ToneCurve(std::vector<CurvePoint> points, std::optional<double> black)
    : points_(std::move(points)), offset_(black.value_or(0.0)), black_(black) {
    assert(!points_.empty() && steps_in_order(points_));
    std::sort(points_.begin(), points_.end(), [](const auto& p, const auto& q) { return p.truth < q.truth; });
    assert(points_.front().truth >= black_truth);
    if (points_.size() == 1) {
        gain_ = points_[0].truth / (points_[0].seen - offset_);
        return;
    }
    kind_ = points_.size() >= 6 ? CurveKind::monotone : CurveKind::offset_and_gain;
    fit_line();
    if (kind_ == CurveKind::monotone) fit_departure_and_rest();
}

// Weighted least squares of truth on seen. The weight follows the slope of lightness, so that the dark steps,
// which fix the offset, are not drowned by the bright ones. With a known black the line goes through it.
void ToneCurve::fit_line() {
    double w = 0, ws = 0, wt = 0, wss = 0, wst = 0;
    for (const CurvePoint& p : points_) {
        const double weight = std::pow(p.truth, -4.0 / 3.0), seen = p.seen - offset_;
        w += weight, ws += weight * seen, wt += weight * p.truth;
        wss += weight * seen * seen, wst += weight * seen * p.truth;
    }
    gain_ = wst / wss;
    if (black_) return;
    const double free_gain = (w * wst - ws * wt) / (w * wss - ws * ws);
    const double free_offset = (ws - wt / free_gain) / w;
    // A strongly curved camera can put the line's zero above its darkest step; that step is still light.
    if (free_gain > 0 && free_offset < 0.95 * points_.front().seen) {
        gain_ = free_gain, offset_ = free_offset;
    }
}

double ToneCurve::base(double seen) const {
    return departure_ ? departure_->light(seen) : gain_ * (seen - offset_);
}

double ToneCurve::gain() const {
    const CurvePoint& top = points_.back();
    return top.truth / (top.seen - offset_);
}

void ToneCurve::fit_departure_and_rest() {
    std::vector<CurvePoint> known = points_;
    if (black_) known.push_back({*black_, 0.0});
    departure_ = fit_departure(known);
    // A camera so unlike sRGB that its darkest step would come out almost black is left to the line.
    if (departure_->light(points_.front().seen) < 0.2 * points_.front().truth) departure_.reset();
    if (departure_) offset_ = darkest_seen(*departure_);
    fit_rest();
}

void ToneCurve::fit_rest() {
    for (const CurvePoint& p : points_) {
        knot_.push_back(std::cbrt(base(p.seen)));
        value_.push_back(std::cbrt(p.truth));
    }
    slope_ = natural_spline_slopes(knot_, value_);
    limit_slopes(knot_, value_, slope_);
}

double ToneCurve::operator()(double seen) const {
    const double light = base(seen);
    if (knot_.empty()) return light;
    const double x = std::cbrt(light);
    if (x <= knot_.front()) return light * std::pow(value_.front() / knot_.front(), 3);
    // Written so that what is not a number goes through here too.
    if (!(x < knot_.back())) return light * std::pow(value_.back() / knot_.back(), 3);
    const auto above = std::upper_bound(knot_.begin(), knot_.end(), x);
    const auto i = static_cast<std::size_t>(above - knot_.begin()) - 1;
    const double h = knot_[i + 1] - knot_[i], t = (x - knot_[i]) / h;
    const double y = (1 + 2 * t) * (1 - t) * (1 - t) * value_[i] + t * (1 - t) * (1 - t) * h * slope_[i] +
                     t * t * (3 - 2 * t) * value_[i + 1] - t * t * (1 - t) * h * slope_[i + 1];
    return y * y * y;
}

std::vector<double> ToneCurve::leave_one_out() const {
    std::vector<double> errors;
    if (points_.size() < 3) return errors;
    for (std::size_t i = 1; i + 1 < points_.size(); ++i) {
        std::vector<CurvePoint> others = points_;
        others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
        ToneCurve without(others, black_);
        if (kind_ == CurveKind::monotone && without.kind_ != CurveKind::monotone)
            without.fit_departure_and_rest();
        errors.push_back(without(points_[i].seen) / points_[i].truth - 1.0);
    }
    return errors;
}

ToneCurve ToneCurve::with_moved_step(std::size_t point, double change) const {
    std::vector<CurvePoint> points = points_;
    points[point].truth *= 1.0 + change;
    return ToneCurve(points, black_);
}

double ToneCurve::slope(double seen) const {
    const double step = 1e-4 * std::max(1e-2, std::abs(seen));
    return ((*this)(seen + step) - (*this)(seen - step)) / (2 * step);
}

}  // namespace tonemend
