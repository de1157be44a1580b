#include "record/report/cairo_drawing.h"

#include <numbers>

#include "record/report/pdf_text.h"

namespace tonemend {
namespace {

struct CairoPainter {
    cairo_t* cairo;

    void stroke(LineStyle line, double thickness, const ReportRgb& colour) const {
        if (line == LineStyle::none || thickness <= 0) {
            cairo_new_path(cairo);
            return;
        }
        const double dashes[] = {4 * thickness, 3 * thickness};
        cairo_set_dash(cairo, dashes, line == LineStyle::dashed ? 2 : 0, 0);
        cairo_set_line_width(cairo, thickness);
        set_colour(cairo, colour);
        cairo_stroke(cairo);
    }
    void fill(bool filled, const ReportRgb& colour) const {
        if (!filled) return;
        set_colour(cairo, colour);
        cairo_fill_preserve(cairo);
    }
    void operator()(const DrawnPath& path) const {
        cairo_new_path(cairo);
        for (const Point& corner : path.corners) cairo_line_to(cairo, corner.x, corner.y);
        if (path.closed) cairo_close_path(cairo);
        fill(path.filled, path.fill);
        stroke(path.line, path.thickness, path.stroke);
    }
    void operator()(const DrawnDisc& disc) const {
        cairo_new_path(cairo);
        cairo_arc(cairo, disc.centre.x, disc.centre.y, disc.radius, 0, 2 * std::numbers::pi);
        cairo_close_path(cairo);
        fill(disc.filled, disc.fill);
        stroke(LineStyle::whole, disc.thickness, disc.stroke);
    }
    void operator()(const DrawnWords& words) const {
        const PdfText text(cairo, words.text, {words.size, words.colour, words.bold, false}, 0);
        const double share = words.anchor == DrawnAnchor::start    ? 0
                             : words.anchor == DrawnAnchor::middle ? 0.5
                                                                   : 1;
        std::size_t line = 0;
        text.draw(cairo, {words.at.x - share * text.width(), words.at.y - text.baseline()}, line,
                  text.height());
    }
};

}  // namespace

void set_colour(cairo_t* cairo, const ReportRgb& colour) {
    cairo_set_source_rgb(cairo, colour[0] / 255.0, colour[1] / 255.0, colour[2] / 255.0);
}

void draw_on(cairo_t* cairo, const ReportDrawing& drawing, const Point& corner, double scale) {
    cairo_save(cairo);
    cairo_translate(cairo, corner.x, corner.y);
    cairo_scale(cairo, scale, scale);
    for (const DrawnPart& part : drawing.parts) std::visit(CairoPainter{cairo}, part);
    cairo_restore(cairo);
}

}  // namespace tonemend
