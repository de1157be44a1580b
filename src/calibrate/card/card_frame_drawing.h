#pragma once

#include <string>
#include <vector>

#include "calibrate/card/card_frame.h"

namespace tonemend {

/// A filled rectangle in sheet millimetres; grey 0 is black, 1 white.
struct DrawnBox {
    double x, y, width, height, grey;
};

/// A straight line in sheet millimetres.
struct DrawnLine {
    double x0, y0, x1, y1, thickness, grey;
    enum class Pattern { solid, dashed } pattern;
};

/// A line of text, centred on x, its baseline on y, `size` millimetres high (em).
struct DrawnText {
    double x, y, size;
    enum class Weight { normal, bold } weight;
    std::string text;
};

/// A filled black triangle.
struct DrawnTriangle {
    Point a, b, c;
};

/// Everything that is printed on a sheet, in the order it is painted.
struct CardFrameDrawing {
    std::string title;
    double width = 0, height = 0;  ///< mm
    std::vector<DrawnBox> boxes;
    std::vector<DrawnLine> lines;
    std::vector<DrawnTriangle> triangles;
    std::vector<DrawnText> texts;
};

CardFrameDrawing draw_card_frame(const CardFrame& frame);

}  // namespace tonemend
