#include "live/legend_view.h"

#include <algorithm>
#include <cmath>

namespace tonemend {
namespace {

// The bar is drawn through the display's table in about this many steps.
constexpr int bar_steps = 60;

XYZ between(const XYZ& a, const XYZ& b, float t) {
    const Lab from = to_lab(a, d50_icc), to = to_lab(b, d50_icc);
    const auto share = static_cast<double>(t);
    return to_xyz({from.L + share * (to.L - from.L), from.a + share * (to.a - from.a),
                   from.b + share * (to.b - from.b)},
                  d50_icc);
}

void draw_bar(Painter& painter, const Box& bar, const std::vector<LegendMark>& marks) {
    const int intervals = static_cast<int>(marks.size() - 1), steps_between = bar_steps / intervals;
    const int steps = intervals * steps_between;
    const float width = bar.width / static_cast<float>(steps);
    for (int i = 0; i < steps; ++i) {
        const auto mark = static_cast<std::size_t>(i / steps_between);
        const float t = (static_cast<float>(i % steps_between) + 0.5F) / static_cast<float>(steps_between);
        const XYZ colour = between(marks[mark].colour, marks[mark + 1].colour, t);
        painter.fill({bar.x + static_cast<float>(i) * width, bar.y, width + 1, bar.height},
                     painter.colours.shade_of(colour));
    }
}

void draw_scale(Painter& painter, const Box& inner, const Legend& legend) {
    ImFont* font = painter.fonts.small;
    const float line = 1.25F * font_size(font);
    const Box bar{inner.x, inner.y, inner.width, inner.height - line};
    draw_bar(painter, bar, legend.marks);
    const auto last = legend.marks.size() - 1;
    for (std::size_t i = 0; i <= last; ++i) {
        const float width = painter.width(legend.marks[i].words, font);
        const float at = bar.x + bar.width * static_cast<float>(i) / static_cast<float>(last);
        const float x = std::clamp(at - 0.5F * width, inner.x, inner.right() - width);
        painter.text({x, bar.bottom(), width + 1, line}, legend.marks[i].words, font, painter.theme.ink,
                     Align::left, "legend mark");
    }
}

void draw_swatches(Painter& painter, const Box& inner, const Legend& legend) {
    const float width = inner.width / static_cast<float>(legend.marks.size());
    const float side = std::min(inner.height, 1.4F * font_size(painter.fonts.small));
    for (std::size_t i = 0; i < legend.marks.size(); ++i) {
        const float x = inner.x + static_cast<float>(i) * width;
        painter.fill({x, inner.middle_y() - 0.5F * side, side, side},
                     painter.colours.shade_of(legend.marks[i].colour));
        painter.text({x + 1.4F * side, inner.y, width - 1.6F * side, inner.height}, legend.marks[i].words,
                     painter.fonts.small, painter.theme.ink, Align::left, "legend mark");
    }
}

}  // namespace

float legend_height(const Painter& painter) {
    return std::round(4.6F * font_size(painter.fonts.small));
}

void draw_legend(Painter& painter, const Box& plate, const Legend& legend) {
    const float small = font_size(painter.fonts.small), pad = 0.4F * small;
    painter.fill(plate, painter.theme.plate, 4);
    const Box inner = plate.inset(pad);
    painter.text({inner.x, inner.y, inner.width, 1.3F * small}, legend.title, painter.fonts.small,
                 painter.theme.ink, Align::left, "legend title");
    const Box rest{inner.x, inner.y + 1.4F * small, inner.width, inner.height - 1.4F * small};
    if (legend.continuous) {
        draw_scale(painter, rest, legend);
    } else {
        draw_swatches(painter, rest, legend);
    }
}

}  // namespace tonemend
