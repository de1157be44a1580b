#include "calibrate/card/homography.h"

namespace tonemend {

Matrix3 unit_square_to_quad(const Quad& quad) {
    const auto& [p0, p1, p2, p3] = quad;
    const double dx1 = p1.x - p2.x, dx2 = p3.x - p2.x, sx = p0.x - p1.x + p2.x - p3.x;
    const double dy1 = p1.y - p2.y, dy2 = p3.y - p2.y, sy = p0.y - p1.y + p2.y - p3.y;
    const double denominator = dx1 * dy2 - dx2 * dy1;
    const double g = (sx * dy2 - dx2 * sy) / denominator;
    const double h = (dx1 * sy - sx * dy1) / denominator;
    Matrix3 result;
    result.m = {{{p1.x - p0.x + g * p1.x, p3.x - p0.x + h * p3.x, p0.x},
                 {p1.y - p0.y + g * p1.y, p3.y - p0.y + h * p3.y, p0.y},
                 {g, h, 1.0}}};
    return result;
}

Point map_point(const Matrix3& homography, const Point& point) {
    const Vector3 mapped = homography * Vector3{point.x, point.y, 1.0};
    return {mapped[0] / mapped[2], mapped[1] / mapped[2]};
}

}  // namespace tonemend
