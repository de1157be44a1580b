#include "record/report/pdf_text.h"

#include <pango/pangocairo.h>

#include <algorithm>

#include "record/report/cairo_drawing.h"
#include "record/report/html_text.h"
#include "record/report/report_words.h"

namespace tonemend {
namespace {

constexpr double line_spacing = 1.15;
constexpr double room_for_rounding = 0.01;

PangoLayout* as_layout(void* layout) {
    return static_cast<PangoLayout*>(layout);
}

double points(int pango_units) {
    return static_cast<double>(pango_units) / PANGO_SCALE;
}

void set_font(PangoLayout* layout, const PdfType& type) {
    PangoFontDescription* const font = pango_font_description_new();
    pango_font_description_set_family(font, type.mono ? "DejaVu Sans Mono" : "DejaVu Sans");
    pango_font_description_set_absolute_size(font, type.size * PANGO_SCALE);
    pango_font_description_set_weight(font, type.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(layout, font);
    pango_font_description_free(font);
    // The paper is not a screen: no letter is moved to a pixel.
    cairo_font_options_t* const options = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    pango_cairo_context_set_font_options(pango_layout_get_context(layout), options);
    cairo_font_options_destroy(options);
}

}  // namespace

void PdfText::FreeLayout::operator()(void* layout) const {
    g_object_unref(layout);
}

PdfText::PdfText(cairo_t* cairo, const std::string& text, const PdfType& type, double width)
    : layout_(pango_cairo_create_layout(cairo)), colour_(type.colour) {
    PangoLayout* const layout = as_layout(layout_.get());
    set_font(layout, type);
    if (width > 0) {
        pango_layout_set_width(layout, static_cast<int>(width * PANGO_SCALE));
        pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
    }
    pango_layout_set_line_spacing(layout, static_cast<float>(line_spacing));
    // A number or a hash that is broken stays what it is.
    PangoAttrList* const attributes = pango_attr_list_new();
    pango_attr_list_insert(attributes, pango_attr_insert_hyphens_new(FALSE));
    const std::string clean = clean_utf8(text);
    // The blanks stay blanks, so that a search finds them. The range holds the letter behind the blank too.
    for (const std::size_t blank : unbroken_blanks(clean)) {
        const char* const behind = g_utf8_next_char(clean.data() + blank + 1);
        PangoAttribute* const unbroken = pango_attr_allow_breaks_new(FALSE);
        unbroken->start_index = static_cast<guint>(blank);
        unbroken->end_index = static_cast<guint>(behind - clean.data());
        pango_attr_list_insert(attributes, unbroken);
    }
    pango_layout_set_attributes(layout, attributes);
    pango_attr_list_unref(attributes);
    pango_layout_set_text(layout, clean.data(), static_cast<int>(clean.size()));
    PangoLayoutIter* const at = pango_layout_get_iter(layout);
    do {
        int top = 0, bottom = 0;
        pango_layout_iter_get_line_yrange(at, &top, &bottom);
        PangoRectangle logical;
        pango_layout_iter_get_line_extents(at, nullptr, &logical);
        lines_.push_back(
            {points(top), points(bottom), points(pango_layout_iter_get_baseline(at)), points(logical.x)});
        width_ = std::max(width_, points(logical.width));
    } while (pango_layout_iter_next_line(at));
    pango_layout_iter_free(at);
}

double PdfText::draw(cairo_t* cairo, const Point& top_left, std::size_t& line, double room) const {
    if (line >= lines_.size()) return 0;
    const double begin = lines_[line].top;
    double filled = 0;
    set_colour(cairo, colour_);
    for (; line < lines_.size() && lines_[line].bottom - begin <= room + room_for_rounding; ++line) {
        const Line& placed = lines_[line];
        cairo_move_to(cairo, top_left.x + placed.indent, top_left.y + placed.baseline - begin);
        pango_cairo_show_layout_line(
            cairo, pango_layout_get_line_readonly(as_layout(layout_.get()), static_cast<int>(line)));
        filled = placed.bottom - begin;
    }
    return filled;
}

}  // namespace tonemend
