#include "picture/polygon.h"

#include <algorithm>

namespace tonemend {
namespace {

int sign(double value) {
    return (value > 0) - (value < 0);
}

/// p is in line with a → b: does it lie between them?
bool lies_between(const Point& p, const Point& a, const Point& b) {
    return std::min(a.x, b.x) <= p.x && p.x <= std::max(a.x, b.x) && std::min(a.y, b.y) <= p.y &&
           p.y <= std::max(a.y, b.y);
}

bool segments_touch(const Point& a, const Point& b, const Point& c, const Point& d) {
    const int side_c = sign(turn(a, b, c));
    const int side_d = sign(turn(a, b, d));
    const int side_a = sign(turn(c, d, a));
    const int side_b = sign(turn(c, d, b));
    if (side_c * side_d < 0 && side_a * side_b < 0) return true;
    return (side_c == 0 && lies_between(c, a, b)) || (side_d == 0 && lies_between(d, a, b)) ||
           (side_a == 0 && lies_between(a, c, d)) || (side_b == 0 && lies_between(b, c, d));
}

/// Edges a → b and b → c run back over each other.
bool folds_back(const Point& a, const Point& b, const Point& c) {
    return turn(a, b, c) == 0 && (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) < 0;
}

}  // namespace

double turn(const Point& a, const Point& b, const Point& c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

bool crosses_itself(const std::vector<Point>& corners) {
    const std::size_t count = corners.size();
    const auto corner = [&](std::size_t i) -> const Point& { return corners[i % count]; };
    for (std::size_t i = 0; i < count; ++i) {
        if (folds_back(corner(i), corner(i + 1), corner(i + 2))) return true;
        for (std::size_t j = i + 2; j < count; ++j) {
            const bool neighbours = i == 0 && j == count - 1;
            if (!neighbours && segments_touch(corner(i), corner(i + 1), corner(j), corner(j + 1)))
                return true;
        }
    }
    return false;
}

bool is_convex(const Quad& quad) {
    const auto direction = [&](std::size_t i) {
        return sign(turn(quad[i], quad[(i + 1) % 4], quad[(i + 2) % 4]));
    };
    const int first = direction(0);
    return first != 0 && direction(1) == first && direction(2) == first && direction(3) == first;
}

}  // namespace tonemend
