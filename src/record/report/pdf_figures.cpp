#include <cairo.h>

#include <algorithm>

#include "record/report/cairo_drawing.h"
#include "record/report/pdf_parts.h"
#include "record/report/report_plot.h"

namespace tonemend {
namespace {

constexpr double figure_gap = 14, title_space = 3, swatch_space = 6;
// A picture's height at most, in parts of the page's; and a frame's in the place of one.
constexpr double highest_share = 0.5, missing_height = 60;
// Smaller than this a plot's type can't be read (under 6.5 points): then one stands below the other.
constexpr double least_plot_scale = 0.65, stacked_plot_scale = 0.75;

struct PlacedFigure {
    const ReportFigure* figure = nullptr;
    const ReportPicture* picture = nullptr;
    double width = 0, height = 0;  // of the picture
};

// The JPEG goes into the PDF as it is.
void draw_picture(cairo_t* cairo, const ReportPicture& picture, const Point& corner, double width) {
    cairo_surface_t* const surface =
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.width, picture.height);
    cairo_surface_set_mime_data(surface, CAIRO_MIME_TYPE_JPEG,
                                reinterpret_cast<const unsigned char*>(picture.jpeg.data()),
                                picture.jpeg.size(), nullptr, nullptr);
    cairo_save(cairo);
    cairo_translate(cairo, corner.x, corner.y);
    cairo_scale(cairo, width / picture.width, width / picture.width);
    cairo_set_source_surface(cairo, surface, 0, 0);
    cairo_paint(cairo);
    cairo_restore(cairo);
    cairo_surface_destroy(surface);
}

void draw_missing(const PdfFlow& flow, const Point& corner, double width) {
    set_colour(flow.cairo(), flow.palette().rule);
    cairo_set_dash(flow.cairo(), nullptr, 0, 0);
    cairo_set_line_width(flow.cairo(), 0.7);
    cairo_rectangle(flow.cairo(), corner.x, corner.y, width, missing_height);
    cairo_stroke(flow.cairo());
    const PdfText words(flow.cairo(), "picture not kept", flow.faint(8.5), width);
    std::size_t line = 0;
    words.draw(flow.cairo(),
               {corner.x + 0.5 * (width - words.width()), corner.y + 0.5 * (missing_height - words.height())},
               line, words.height());
}

}  // namespace

void draw_figures(PdfFlow& flow, const std::vector<ReportFigure>& figures, const PdfPictures& pictures,
                  bool grey) {
    if (figures.empty()) return;
    const double column = (flow.width() - figure_gap) / 2;
    const double highest = highest_share * flow.page_height();
    const PdfType title = flow.faint(8);
    std::vector<PlacedFigure> placed;
    std::vector<PdfCell> titles;
    double tallest = 0;
    const double scale = column / report_plot_width;
    const double swatches = draw_swatches({}, {}, flow.palette(), grey).height * scale;
    for (const ReportFigure& figure : figures) {
        PlacedFigure one{&figure, pictures(figure.sha256), column, missing_height + swatch_space + swatches};
        if (one.picture != nullptr) {
            one.height = column * one.picture->height / one.picture->width;
            if (one.height > highest) one.width *= highest / one.height, one.height = highest;
        }
        tallest = std::max(tallest, one.height);
        titles.push_back({figure.title, title, static_cast<double>(placed.size()) * (column + figure_gap),
                          column, ReportMark::none});
        placed.push_back(one);
    }
    flow.skip(10);
    flow.need(flow.row_height(titles) + title_space + tallest);
    flow.row(titles, 0, title_space);
    for (std::size_t i = 0; i < placed.size(); ++i) {
        const PlacedFigure& one = placed[i];
        const Point corner{flow.left() + static_cast<double>(i) * (column + figure_gap), flow.y()};
        if (one.picture != nullptr) {
            draw_picture(flow.cairo(), *one.picture, corner, one.width);
            continue;  // it has the two colours in it
        }
        draw_missing(flow, corner, one.width);
        draw_on(flow.cairo(), draw_swatches(one.figure->original, one.figure->repair, flow.palette(), grey),
                {corner.x, corner.y + missing_height + swatch_space}, scale);
    }
    flow.take(tallest);
}

void draw_plots(PdfFlow& flow, const std::vector<ReportPoint>& points) {
    const auto ab = draw_ab_plot(points, flow.palette()),
               lightness = draw_lightness_plot(points, flow.palette());
    if (!ab || !lightness) return;
    const double column = (flow.width() - figure_gap) / 2;
    if (column < least_plot_scale * report_plot_width) {
        for (const ReportDrawing& plot : {*ab, *lightness}) {
            flow.skip(12);
            flow.need(plot.height * stacked_plot_scale);
            draw_on(flow.cairo(), plot, {flow.left(), flow.y()}, stacked_plot_scale);
            flow.take(plot.height * stacked_plot_scale);
        }
        return;
    }
    const double scale = column / report_plot_width;
    flow.skip(12);
    flow.need(std::max(ab->height, lightness->height) * scale);
    draw_on(flow.cairo(), *ab, {flow.left(), flow.y()}, scale);
    draw_on(flow.cairo(), *lightness, {flow.left() + column + figure_gap, flow.y()}, scale);
    flow.take(std::max(ab->height, lightness->height) * scale);
}

void draw_plate(PdfFlow& flow, const ReportArea& area) {
    constexpr double pad = 9, mark_size = 24;
    const double beside = area.mark == ReportMark::none ? 0 : mark_size + 10;
    const double width = flow.width() - 2 * pad - beside;
    const std::vector<PdfCell> verdict{
        {area.verdict, flow.type(14, true), pad + beside, width, ReportMark::none}},
        statement{{area.statement, flow.type(9.5), pad + beside, width, ReportMark::none}};
    const double height = flow.row_height(verdict) + flow.row_height(statement) + 2 * pad;
    flow.need(height);
    set_colour(flow.cairo(), flow.palette().plate);
    cairo_rectangle(flow.cairo(), flow.left(), flow.y(), flow.width(), height);
    cairo_fill(flow.cairo());
    const ReportDrawing mark = draw_mark(area.mark, flow.palette());
    draw_on(flow.cairo(), mark, {flow.left() + pad, flow.y() + 0.5 * (height - mark_size)},
            mark_size / mark.width);
    flow.row(verdict, pad, 0);
    flow.row(statement, 0, pad);
}

}  // namespace tonemend
