#pragma once

#include <cairo.h>

#include "record/report/report_drawing.h"

namespace tonemend {

/// Draws it with its top-left corner at `corner`, `scale` times its size.
void draw_on(cairo_t* cairo, const ReportDrawing& drawing, const Point& corner, double scale);

void set_colour(cairo_t* cairo, const ReportRgb& colour);

}  // namespace tonemend
