#include "record/report/verdict_mark.h"

namespace tonemend {
namespace {

constexpr double mark_side = 24, mark_middle = mark_side / 2, mark_radius = 9.5;

DrawnDisc ring(double thickness, const ReportRgb& ink) {
    return {{mark_middle, mark_middle}, mark_radius - thickness / 2, thickness, ink, false, {}};
}

DrawnDisc full_disc(double x, double radius, const ReportRgb& ink) {
    return {{x, mark_middle}, radius, 0, {}, true, ink};
}

DrawnPath stroke(const Point& from, const Point& to, double thickness, const ReportRgb& ink) {
    return {{from, to}, false, LineStyle::whole, thickness, ink, false, {}};
}

}  // namespace

ReportMark mark_of(const std::string& verdict) {
    if (verdict == "match" || verdict == "holds") return ReportMark::match;
    if (verdict == "close" || verdict == "caution") return ReportMark::close;
    if (verdict == "off" || verdict == "alarm") return ReportMark::off;
    if (verdict == "undecided") return ReportMark::undecided;
    if (verdict == "unfit") return ReportMark::unfit;
    return ReportMark::none;
}

ReportDrawing draw_mark(ReportMark mark, const ReportPalette& palette) {
    ReportDrawing drawing{mark_side, mark_side, {}, {}};
    const ReportRgb& ink = palette.ink;
    const double low = mark_middle - 0.7 * mark_radius, high = mark_middle + 0.7 * mark_radius;
    switch (mark) {
        case ReportMark::none:
            break;
        case ReportMark::match:
            drawing.parts = {full_disc(mark_middle, mark_radius, ink)};
            break;
        case ReportMark::close:
            drawing.parts = {ring(3.6, ink)};
            break;
        case ReportMark::off:
            drawing.parts = {full_disc(mark_middle - 5.8, 4.4, ink), full_disc(mark_middle + 5.8, 4.4, ink)};
            break;
        case ReportMark::undecided:
            drawing.parts = {ring(2, ink), stroke({mark_middle - 4.5, mark_middle},
                                                  {mark_middle + 4.5, mark_middle}, 2.2, ink)};
            break;
        case ReportMark::unfit:
            drawing.parts = {stroke({low, low}, {high, high}, 3.2, ink),
                             stroke({low, high}, {high, low}, 3.2, ink)};
            break;
    }
    return drawing;
}

}  // namespace tonemend
