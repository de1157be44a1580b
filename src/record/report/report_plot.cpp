#include "record/report/report_plot.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "colour/srgb_display.h"
#include "record/report/plot_scale.h"

namespace tonemend {
namespace {

constexpr double plot_height = 320, plot_left = 38, plot_right = report_plot_width - 10, plot_top = 24,
                 plot_bottom = 258;
constexpr double type_size = 11, small_type = 10;
// More than these and numbers no longer fit into discs.
constexpr std::size_t most_numbered = 16;

bool is_colour(const Lab& lab) {
    const auto fine = [](double value) { return std::abs(value) <= 500; };
    return fine(lab.L) && fine(lab.a) && fine(lab.b);
}

std::vector<ReportPoint> sound(const std::vector<ReportPoint>& points) {
    std::vector<ReportPoint> all;
    std::copy_if(points.begin(), points.end(), std::back_inserter(all), [](const ReportPoint& point) {
        return is_colour(point.original) && is_colour(point.repair);
    });
    return all;
}

struct Ends {
    double low = 1e9, high = -1e9;
    void hold(double value) { low = std::min(low, value), high = std::max(high, value); }
};

// Half the width of a digit of small type.
constexpr double digit_half = 3.5;

// Whether a later disc lies over the number in this one.
bool is_covered(const std::vector<Point>& places, std::size_t place, double reach) {
    for (std::size_t later = place + 1; later < places.size(); ++later)
        if (std::hypot(places[later].x - places[place].x, places[later].y - places[place].y) < reach)
            return true;
    return false;
}

double half_band(const ReportPoint& point) {
    return point.original_u95 ? std::clamp((*point.original_u95)[0], 0.0, 50.0) : 0.0;
}

// The ± of the original's L*, a polygon for each run of readings whose ± is known; `column`: a reading's
// width.
std::vector<std::vector<Point>> bands_of(const std::vector<ReportPoint>& points, const PlotScale& rise,
                                         double column) {
    std::vector<std::vector<Point>> bands;
    for (std::size_t first = 0; first < points.size(); ++first) {
        std::size_t end = first;
        while (end < points.size() && points[end].original_u95) ++end;
        if (end == first) continue;
        std::vector<Point> above, below;
        for (std::size_t i = first; i < end; ++i) {
            const double left = plot_left + static_cast<double>(i) * column, x = left + 0.5 * column;
            // At both ends of the run the band fills the column.
            for (const double at : {i == first ? left : x, i + 1 == end ? left + column : x}) {
                above.push_back({at, rise(points[i].original.L + half_band(points[i]))});
                below.push_back({at, rise(points[i].original.L - half_band(points[i]))});
            }
        }
        above.insert(above.end(), below.rbegin(), below.rend());
        bands.push_back(std::move(above));
        first = end;
    }
    return bands;
}

// A plot in the making.
class Plotter {
  public:
    Plotter(const ReportPalette& palette, std::string words) : palette_(palette) {
        drawing_.width = report_plot_width, drawing_.height = plot_height;
        drawing_.words = std::move(words);
    }

    void line(const Point& from, const Point& to, double thickness, const ReportRgb& ink,
              LineStyle style = LineStyle::whole) {
        drawing_.parts.emplace_back(DrawnPath{{from, to}, false, style, thickness, ink, false, {}});
    }
    void words(const Point& at, const std::string& text, DrawnAnchor anchor, const ReportRgb& ink,
               double size = type_size, bool bold = false) {
        drawing_.parts.emplace_back(DrawnWords{at, text, size, anchor, ink, bold});
    }
    void part(DrawnPart part) { drawing_.parts.push_back(std::move(part)); }

    void frame() {
        part(DrawnPath{{{plot_left, plot_top},
                        {plot_right, plot_top},
                        {plot_right, plot_bottom},
                        {plot_left, plot_bottom}},
                       true,
                       LineStyle::whole,
                       1,
                       palette_.rule,
                       false,
                       {}});
    }
    void rise_ticks(const PlotScale& scale) {
        for (const double tick : scale.ticks) {
            line({plot_left, scale(tick)}, {plot_right, scale(tick)}, 0.4, palette_.rule);
            words({plot_left - 5, scale(tick) + 4}, tick_text(tick), DrawnAnchor::end, palette_.faint);
        }
    }
    void across_ticks(const PlotScale& scale) {
        for (const double tick : scale.ticks) {
            line({scale(tick), plot_top}, {scale(tick), plot_bottom}, 0.4, palette_.rule);
            words({scale(tick), plot_bottom + 14}, tick_text(tick), DrawnAnchor::middle, palette_.faint);
        }
    }

    // Discs in their order, joined, each over the ones before it.
    void discs(const std::vector<ReportPoint>& points, const std::vector<Point>& places) {
        for (std::size_t i = 1; i < places.size(); ++i) line(places[i - 1], places[i], 1, palette_.accent);
        const bool many = points.size() > most_numbered;
        for (std::size_t i = 0; i < places.size(); ++i) {
            const std::string number = std::to_string(points[i].number);
            const double radius = many ? 3.2 : number.size() > 2 ? 10 : 8;
            const ReportRgb& fill = points[i].unfit ? palette_.paper : palette_.accent;
            part(DrawnDisc{places[i], radius, 1.2, points[i].unfit ? palette_.accent : palette_.paper, true,
                           fill});
            if (!many && !is_covered(places, i, radius + digit_half * static_cast<double>(number.size())))
                words({places[i].x, places[i].y + 3.6}, number, DrawnAnchor::middle,
                      points[i].unfit ? palette_.ink : palette_.paper, small_type, true);
        }
        if (!many) return;
        const Point &first = places.front(), &last = places.back();
        const bool apart = std::hypot(first.x - last.x, first.y - last.y) > 2 * small_type;
        for (std::size_t i = apart ? 0 : places.size() - 1; i < places.size(); i += places.size() - 1)
            words({places[i].x + 5, places[i].y - 5}, std::to_string(points[i].number),
                  places[i].x > plot_right - 30 ? DrawnAnchor::end : DrawnAnchor::start, palette_.ink,
                  small_type, true);
    }

    ReportDrawing take() { return std::move(drawing_); }
    const ReportPalette& palette() const { return palette_; }

  private:
    ReportPalette palette_;
    ReportDrawing drawing_;
};

}  // namespace

std::optional<ReportDrawing> draw_ab_plot(const std::vector<ReportPoint>& all, const ReportPalette& palette) {
    const std::vector<ReportPoint> points = sound(all);
    if (points.empty()) return std::nullopt;
    const Lab original = points.back().original;
    Ends a, b;
    a.hold(original.a), b.hold(original.b);
    for (const ReportPoint& point : points) a.hold(point.repair.a), b.hold(point.repair.b);
    // One scale for both: the shape on paper is the shape in colour.
    const double wide = plot_right - plot_left, high = plot_bottom - plot_top;
    const double unit = std::max({1.24 * (a.high - a.low) / wide, 1.24 * (b.high - b.low) / high, 6 / high});
    const PlotScale across = plot_scale(a.low, a.high, plot_left, plot_right, unit * wide);
    const PlotScale rise = plot_scale(b.low, b.high, plot_bottom, plot_top, unit * high);
    Plotter plot(
        palette,
        fmt::format("Plot of a* and b*: the original at a* {:.1f}, b* {:.1f}; the repair in {} readings, the "
                    "last at a* {:.1f}, b* {:.1f}",
                    original.a, original.b, points.size(), points.back().repair.a, points.back().repair.b));
    plot.across_ticks(across);
    plot.rise_ticks(rise);
    plot.frame();
    std::vector<Point> places;
    for (const ReportPoint& point : points) places.push_back({across(point.repair.a), rise(point.repair.b)});
    plot.part(DrawnDisc{{across(original.a), rise(original.b)}, 12, 2.4, palette.ink, false, {}});
    plot.discs(points, places);
    plot.words({plot_left, plot_top - 8}, "b* (CIELAB units): ↑ yellower, ↓ bluer", DrawnAnchor::start,
               palette.ink);
    plot.words({plot_left, plot_bottom + 29}, "← greener", DrawnAnchor::start, palette.ink);
    plot.words({(plot_left + plot_right) / 2, plot_bottom + 29}, "a* (CIELAB units)", DrawnAnchor::middle,
               palette.ink);
    plot.words({plot_right, plot_bottom + 29}, "redder →", DrawnAnchor::end, palette.ink);
    plot.words({plot_left, plot_height - 10}, "ring: original; discs: repair, by reading; hollow: unfit",
               DrawnAnchor::start, palette.faint, small_type);
    return plot.take();
}

std::optional<ReportDrawing> draw_lightness_plot(const std::vector<ReportPoint>& all,
                                                 const ReportPalette& palette) {
    const std::vector<ReportPoint> points = sound(all);
    if (points.empty()) return std::nullopt;
    Ends ends;
    for (const ReportPoint& point : points) {
        ends.hold(point.repair.L);
        ends.hold(point.original.L - half_band(point)), ends.hold(point.original.L + half_band(point));
    }
    const PlotScale rise = plot_scale(ends.low, ends.high, plot_bottom, plot_top);
    Plotter plot(
        palette,
        fmt::format("Plot of L* over the readings: the original at {:.1f}, the repair last at {:.1f}",
                    points.back().original.L, points.back().repair.L));
    std::vector<Point> places, level;
    const double column = (plot_right - plot_left) / static_cast<double>(points.size());
    for (std::size_t i = 0; i < points.size(); ++i) {
        const double x = plot_left + (static_cast<double>(i) + 0.5) * column;
        // The level of the first and of the last reading runs on to the frame.
        for (const double at : {i == 0 ? plot_left : x, i + 1 == points.size() ? plot_right : x})
            level.push_back({at, rise(points[i].original.L)});
        places.push_back({x, rise(points[i].repair.L)});
    }
    for (std::vector<Point>& band : bands_of(points, rise, column))
        plot.part(DrawnPath{std::move(band), true, LineStyle::none, 0, {}, true, palette.band});
    plot.rise_ticks(rise);
    plot.frame();
    plot.part(DrawnPath{level, false, LineStyle::dashed, 1.4, palette.ink, false, {}});
    plot.discs(points, places);
    plot.words({plot_left, plot_top - 8}, "L* (CIELAB units): ↑ lighter, ↓ darker", DrawnAnchor::start,
               palette.ink);
    for (std::size_t i = 0; i < points.size() && points.size() <= most_numbered; ++i)
        plot.words({places[i].x, plot_bottom + 14}, std::to_string(points[i].number), DrawnAnchor::middle,
                   palette.faint);
    plot.words({(plot_left + plot_right) / 2, plot_bottom + 29}, "readings in their order →",
               DrawnAnchor::middle, palette.ink);
    plot.words({plot_left, plot_height - 10}, "dashed line: original, band: its ±; discs: repair, by reading",
               DrawnAnchor::start, palette.faint, small_type);
    return plot.take();
}

ReportDrawing draw_swatches(const Lab& original, const Lab& repair, const ReportPalette& palette, bool grey) {
    constexpr double swatch_height = 46;
    ReportDrawing drawing{
        report_plot_width, swatch_height + 18, "Original and repair as even colours, edge to edge", {}};
    double x = 0;
    const double half = report_plot_width / 2;
    for (const Lab& lab : {original, repair}) {
        if (is_colour(lab)) {
            const auto [r, g, b] = to_srgb8(lab);
            const ReportRgb seen{r, g, b};
            drawing.parts.emplace_back(
                DrawnPath{{{x, 0}, {x + half, 0}, {x + half, swatch_height}, {x, swatch_height}},
                          true,
                          LineStyle::none,
                          0,
                          {},
                          true,
                          grey ? grey_of(seen) : seen});
        }
        x += half;
    }
    drawing.parts.emplace_back(DrawnWords{
        {half / 2, swatch_height + 14}, "original", type_size, DrawnAnchor::middle, palette.faint, false});
    drawing.parts.emplace_back(DrawnWords{
        {half * 1.5, swatch_height + 14}, "repair", type_size, DrawnAnchor::middle, palette.faint, false});
    return drawing;
}

}  // namespace tonemend
