#include "measure/light_errors.h"

#include <algorithm>
#include <cmath>

#include "calibrate/flat/paper_spots.h"

namespace tonemend {
namespace {

constexpr double more_than_noise = 2;

}  // namespace

LightErrors::LightErrors(const Calibration& calibration, const Point& first, const Point& second) {
    const Point card = middle_of(calibration.card_corners);
    from_card_ = {Point{first.x - card.x, first.y - card.y}, Point{second.x - card.x, second.y - card.y}};
    const LightSlope& slope = calibration.light;
    if (!calibration.flat_field) {
        slope_x_ = std::max(std::abs(slope.x), slope.u), slope_y_ = std::max(std::abs(slope.y), slope.u);
        return;
    }
    if (std::hypot(slope.x, slope.y) > more_than_noise * slope.u)
        slope_x_ = std::abs(slope.x), slope_y_ = std::abs(slope.y);
    const FlatField& field = *calibration.flat_field;
    evened_ = true;
    channel_ = field.colour_share;
    first_ = std::sqrt(std::max(0.0, field.covariance(first, first)));
    tie_ = first_ > 0 ? field.covariance(first, second) / first_ : 0;
    second_ = std::sqrt(std::max(0.0, field.covariance(second, second) - tie_ * tie_));
}

std::array<Vector3, 2> LightErrors::draw(NormalDraws& normal) const {
    const double x = slope_x_ * normal(), y = slope_y_ * normal();
    std::array<Vector3, 2> light{};
    for (std::size_t k = 0; k < 2; ++k) {
        const double change = 1 + x * from_card_[k].x + y * from_card_[k].y;
        light[k] = {change, change, change};
    }
    if (!evened_) return light;
    const auto spread = [&](double share, std::size_t channel) {
        const double p = share * normal(), q = share * normal();
        light[0][channel] += first_ * p;
        light[1][channel] += tie_ * p + second_ * q;
    };
    const double p = normal(), q = normal();
    for (std::size_t c = 0; c < 3; ++c) {
        light[0][c] += first_ * p, light[1][c] += tie_ * p + second_ * q;
        spread(channel_, c);
    }
    return light;
}

}  // namespace tonemend
