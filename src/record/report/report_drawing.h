#pragma once

#include <string>
#include <variant>
#include <vector>

#include "picture/geometry.h"
#include "record/report/report_palette.h"

namespace tonemend {

// A drawing as a list of simple parts, so that the HTML and the PDF show the very same. Lengths are in the
// drawing's own units from its top-left corner, y downwards.

enum class LineStyle { whole, dashed, none };

struct DrawnPath {
    std::vector<Point> corners;
    bool closed = false;
    LineStyle line = LineStyle::whole;
    double thickness = 1;
    ReportRgb stroke{};
    bool filled = false;
    ReportRgb fill{};
};

struct DrawnDisc {
    Point centre;
    double radius = 1;
    double thickness = 0;  ///< of its edge; 0: none
    ReportRgb stroke{};
    bool filled = true;
    ReportRgb fill{};
};

enum class DrawnAnchor { start, middle, end };

struct DrawnWords {
    Point at;  ///< on the baseline
    std::string text;
    double size = 10;
    DrawnAnchor anchor = DrawnAnchor::start;
    ReportRgb colour{};
    bool bold = false;
};

using DrawnPart = std::variant<DrawnPath, DrawnDisc, DrawnWords>;

struct ReportDrawing {
    double width = 0, height = 0;
    std::string words;  ///< what it shows, for those who can't see it
    std::vector<DrawnPart> parts;
};

}  // namespace tonemend
