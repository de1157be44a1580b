#include "record/gloss_map_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "picture/canvas.h"
#include "picture/encoders.h"
#include "record/annotation_panel.h"

namespace tonemend {
namespace {

constexpr int map_side = 1600;
constexpr int legend_steps = 32;

double end_of_scale(const GlossResult& result) {
    const double most = std::max(result.original.gloss, result.repair.gloss);
    for (const double end : {0.01, 0.02, 0.05, 0.1, 0.2, 0.5})
        if (1.5 * most <= end) return end;
    return 1;
}

std::uint8_t grey_of(double gloss, double end) {
    return static_cast<std::uint8_t>(std::lround(255 * std::clamp(gloss / end, 0.0, 1.0)));
}

std::uint8_t hatch_at(int x, int y) {
    return (x + y) % 6 < 2 ? std::uint8_t{110} : std::uint8_t{70};
}

DisplayPicture squares_of(const GlossMap& map, const Frame& frame, double scale, int below, double end) {
    DisplayPicture picture{std::max(least_panel_width, static_cast<int>(frame.width * scale)),
                           static_cast<int>(frame.height * scale) + below,
                           {}};
    picture.rgb.assign(3 * static_cast<std::size_t>(picture.width) * static_cast<std::size_t>(picture.height),
                       panel_grey);
    for (int y = 0; y < picture.height - below; ++y) {
        for (int x = 0; x < std::min(picture.width, static_cast<int>(frame.width * scale)); ++x) {
            const int column = std::min(static_cast<int>(x / scale) / map.side, map.columns - 1),
                      row = std::min(static_cast<int>(y / scale) / map.side, map.rows - 1);
            const double gloss = static_cast<double>(map.at(column, row));
            const std::uint8_t grey = gloss >= 0 ? grey_of(gloss, end) : hatch_at(x, y);
            auto* pixel = picture.rgb.data() + 3 * (static_cast<std::ptrdiff_t>(y) * picture.width + x);
            std::fill_n(pixel, 3, grey);
        }
    }
    return picture;
}

void outline_region(Canvas& canvas, const Region& region, double scale, const std::string& label,
                    double unit) {
    std::vector<Point> corners = region.corners;
    for (Point& corner : corners) corner.x *= scale, corner.y *= scale;
    canvas.outline(corners, panel_paint::shadow, 6);
    canvas.outline(corners, panel_paint::ink, 3);
    const TextStyle style{unit, panel_paint::ink, FontWeight::bold};
    const TextExtent extent = canvas.measure(label, style);
    const PixelRect box = bounds(region);
    const Point at{std::min(box.x * scale, canvas.width() - extent.width - unit),
                   std::max(0.0, box.y * scale - extent.height - 0.8 * unit)};
    canvas.rounded_box({at.x, at.y, extent.width + 0.6 * unit, extent.height + 0.6 * unit}, 0.3 * unit,
                       panel_paint::plate);
    canvas.text({at.x + 0.3 * unit, at.y + 0.3 * unit}, label, style);
}

void draw_legend(Canvas& canvas, double top, double unit, double end, const GlossResult& result) {
    const double left = unit, width = 12 * unit;
    for (int i = 0; i < legend_steps; ++i) {
        const double grey = (i + 0.5) / legend_steps;
        canvas.rounded_box(
            {left + width * i / legend_steps, top + 0.6 * unit, width / legend_steps + 1, unit}, 0,
            {grey, grey, grey});
    }
    const TextStyle style{unit, panel_paint::ink};
    canvas.text({left + width + unit, top + 0.5 * unit},
                fmt::format("gloss: black 0, white {:.0f} % of white; hatched: not known", 100 * end), style);
    // Long sentences are broken where they say what follows from what.
    std::string sheen = say_sheen(result.sheen);
    for (std::size_t at = 0; at + 1 < sheen.size(); ++at)
        if ((sheen[at] == ';' || sheen[at] == ':') && sheen[at + 1] == ' ') sheen[at + 1] = '\n';
    canvas.text({left, top + 2.2 * unit}, "sheen: " + sheen, style);
}

}  // namespace

AnnotatedPicture picture_of_gloss(const GlossMap& map, const LampPosition& first, const GlossResult& result) {
    const Frame& frame = *first.frame;
    const double scale = std::min(1.0, static_cast<double>(map_side) / std::max(frame.width, frame.height));
    const double unit = std::max(static_cast<double>(least_panel_width), frame.width * scale) / 46;
    const double end = end_of_scale(result);
    const int below = static_cast<int>(7 * unit);
    Canvas canvas(squares_of(map, frame, scale, below, end));
    outline_region(canvas, result.without_gloss.original.region, scale,
                   fmt::format("original {:.1f} %", 100 * result.original.gloss), unit);
    outline_region(canvas, result.without_gloss.repair.region, scale,
                   fmt::format("repair {:.1f} %", 100 * result.repair.gloss), unit);
    draw_legend(canvas, canvas.height() - below, unit, end, result);
    return encode_png(as_frame(canvas.picture()), {});
}

}  // namespace tonemend
