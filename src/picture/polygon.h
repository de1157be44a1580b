#pragma once

#include <vector>

#include "picture/geometry.h"

namespace tonemend {

/// Twice the signed area of triangle a, b, c: positive when c lies to the right of a → b on the picture
/// (whose y runs down), zero when the three are in line.
double turn(const Point& a, const Point& b, const Point& c);

/// True when two edges of the closed polygon share a point other than the corner that joins them.
bool crosses_itself(const std::vector<Point>& corners);

/// True when the corners go once round a convex shape with area, in either direction.
bool is_convex(const Quad& quad);

}  // namespace tonemend
