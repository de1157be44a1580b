#include "practice/card_place.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tonemend {

Quad place_sheet(double width, double height, const Pose& pose, const PixelRect& area, double fill,
                 double across, double down) {
    constexpr double degree = std::numbers::pi / 180;
    const double view_distance = 3 * std::hypot(width, height);
    const double turn = pose.rotation * degree;
    const double axis_x = std::cos(pose.tilt_direction * degree);
    const double axis_y = std::sin(pose.tilt_direction * degree);
    Quad corners{};
    for (std::size_t i = 0; i < 4; ++i) {
        const double u = (i == 1 || i == 2 ? 0.5 : -0.5) * width;
        const double v = (i >= 2 ? 0.5 : -0.5) * height;
        const double x = u * std::cos(turn) - v * std::sin(turn);
        const double y = u * std::sin(turn) + v * std::cos(turn);
        // About the axis: what lies along it stays, what lies across it shrinks and gains depth.
        const double along = x * axis_x + y * axis_y;
        const double aside = -x * axis_y + y * axis_x;
        const double flat = aside * std::cos(pose.tilt * degree);
        const double depth = aside * std::sin(pose.tilt * degree);
        const double scale = view_distance / (view_distance + depth);
        corners[i] = {scale * (along * axis_x - flat * axis_y), scale * (along * axis_y + flat * axis_x)};
    }
    double left = corners[0].x, right = left, top = corners[0].y, bottom = top;
    for (const Point& corner : corners) {
        left = std::min(left, corner.x);
        right = std::max(right, corner.x);
        top = std::min(top, corner.y);
        bottom = std::max(bottom, corner.y);
    }
    const double scale = fill * std::min(area.width / (right - left), area.height / (bottom - top));
    const double x0 = area.x + across * (area.width - scale * (right - left));
    const double y0 = area.y + down * (area.height - scale * (bottom - top));
    for (Point& corner : corners) corner = {x0 + scale * (corner.x - left), y0 + scale * (corner.y - top)};
    return corners;
}

}  // namespace tonemend
