#include "calibrate/card/card_frame_cairo.h"

namespace tonemend {
namespace {

void set_grey(cairo_t* context, double grey) {
    cairo_set_source_rgb(context, grey, grey, grey);
}

void paint(cairo_t* context, const DrawnBox& box) {
    set_grey(context, box.grey);
    cairo_rectangle(context, box.x, box.y, box.width, box.height);
    cairo_fill(context);
}

void paint(cairo_t* context, const DrawnLine& line) {
    constexpr double dashes[] = {2, 1};
    set_grey(context, line.grey);
    cairo_set_line_width(context, line.thickness);
    cairo_set_dash(context, dashes, line.pattern == DrawnLine::Pattern::dashed ? 2 : 0, 0);
    cairo_move_to(context, line.x0, line.y0);
    cairo_line_to(context, line.x1, line.y1);
    cairo_stroke(context);
}

void paint(cairo_t* context, const DrawnTriangle& triangle) {
    set_grey(context, 0);
    cairo_move_to(context, triangle.a.x, triangle.a.y);
    cairo_line_to(context, triangle.b.x, triangle.b.y);
    cairo_line_to(context, triangle.c.x, triangle.c.y);
    cairo_close_path(context);
    cairo_fill(context);
}

void paint(cairo_t* context, const DrawnText& text) {
    set_grey(context, 0);
    const bool bold = text.weight == DrawnText::Weight::bold;
    cairo_select_font_face(context, "DejaVu Sans", CAIRO_FONT_SLANT_NORMAL,
                           bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(context, text.size);
    cairo_text_extents_t extents;
    cairo_text_extents(context, text.text.c_str(), &extents);
    cairo_move_to(context, text.x - extents.x_advance / 2, text.y);
    cairo_show_text(context, text.text.c_str());
}

}  // namespace

void paint_card_frame(cairo_t* context, const CardFrameDrawing& drawing) {
    // Hinted widths are whole device pixels: at a unit of a millimetre, far too coarse.
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_set_font_options(context, options);
    cairo_font_options_destroy(options);

    for (const DrawnBox& box : drawing.boxes) paint(context, box);
    for (const DrawnLine& line : drawing.lines) paint(context, line);
    for (const DrawnTriangle& triangle : drawing.triangles) paint(context, triangle);
    for (const DrawnText& text : drawing.texts) paint(context, text);
}

}  // namespace tonemend
