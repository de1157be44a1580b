#pragma once

#include <array>

namespace tonemend {

/// A point in picture pixels; (0, 0) is the outer corner of the top-left pixel, whose centre is (0.5, 0.5).
struct Point {
    double x = 0;
    double y = 0;
};

/// Whole pixels: columns x … x+width−1, rows y … y+height−1.
struct PixelRect {
    int x = 0;
    int y = 0;
    int width = 0;
    int height = 0;
};

/// Four corners in picture pixels: top-left, top-right, bottom-right, bottom-left of the thing they outline,
/// as seen upright on that thing (not on the picture).
using Quad = std::array<Point, 4>;

}  // namespace tonemend
