#include "live/vials_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "live/bench_vials.h"
#include "record/number_text.h"

namespace tonemend {
namespace {

float across(const Box& tube, double position) {
    // The ends of a tube are round: positions run between the middles of its caps.
    const float half = 0.5F * (tube.width - tube.height);
    return tube.middle_x() + half * static_cast<float>(position);
}

struct Bubble {
    double at = 0, half_width = 0;
    float thickness = 0;  ///< share of the tube's height
    bool hollow = false;
};

void draw_bubble(Painter& painter, const Box& tube, const Bubble& bubble) {
    const float height = bubble.thickness * tube.height, radius = 0.5F * height;
    const float reach = std::max(radius, across(tube, bubble.half_width) - tube.middle_x());
    const float from = std::max(tube.x, across(tube, bubble.at) - reach);
    const float to = std::min(tube.right(), across(tube, bubble.at) + reach);
    const Box shape{from, tube.middle_y() - radius, to - from, height};
    if (bubble.hollow) {
        painter.outline(shape, painter.theme.bubble, std::max(2.0F, 0.14F * tube.height), radius);
    } else {
        painter.fill(shape, painter.theme.bubble, radius);
    }
}

void draw_etching(Painter& painter, const Box& tube, const Vial& vial) {
    const float thick = std::max(2.0F, 0.08F * tube.height);
    for (const double line : {-vial.line, vial.line}) {
        const float x = across(tube, line);
        painter.list.AddLine({x, tube.y - 0.12F * tube.height}, {x, tube.bottom() + 0.12F * tube.height},
                             to_colour(painter.theme.etch), thick);
    }
    const float x = across(tube, 0);
    painter.list.AddLine({x, tube.y + 0.3F * tube.height}, {x, tube.bottom() - 0.3F * tube.height},
                         to_colour(painter.theme.etch, 0.6F), 1);
}

void draw_tube(Painter& painter, const Box& tube, const BenchVial& vial, bool filled) {
    painter.fill(tube, painter.theme.tube, 0.5F * tube.height);
    if (filled && vial.ground) {
        draw_bubble(painter, tube, {vial.ground->bubble, vial.ground->bubble_half_width, 0.84F, true});
        draw_bubble(painter, tube, {vial.figure->bubble, 0, 0.5F, false});
    } else if (filled) {
        draw_bubble(painter, tube, {vial.whole.bubble, vial.whole.bubble_half_width, 0.76F, false});
    }
    if (filled) draw_etching(painter, tube, vial.whole);
}

std::string value_text(const BenchVial& vial) {
    return fmt::format("{}  {} {}", vial.whole.axis, number_text(vial.whole.difference, Sign::always),
                       interval_text(vial.whole.u95));
}

}  // namespace

void draw_vials_view(Painter& painter, const Box& box, const Comparison* comparison) {
    const Theme& theme = painter.theme;
    const Fonts& fonts = painter.fonts;
    const bool filled = comparison != nullptr;
    const auto vials = draw_bench_vials(filled ? *comparison : Comparison{});
    // The note below goes first where room is short.
    const bool noted = box.height > 8.2F * font_size(fonts.small);
    const float note = noted ? 1.25F * font_size(fonts.small) : 0;
    const float row = (box.height - note) / 3;
    ImFont* side = row < 2.1F * font_size(fonts.body) ? fonts.small : fonts.body;
    const float words = 1.1F * font_size(side);
    for (std::size_t k = 0; k < 3; ++k) {
        const BenchVial& vial = vials[k];
        const Box caption{box.x, box.y + static_cast<float>(k) * row, box.width, words};
        const float left = painter.text(caption, vial.whole.left, side, theme.ink, Align::left, "vial left");
        const float right =
            painter.text(caption, vial.whole.right, side, theme.ink, Align::right, "vial right");
        const float widest = std::max(left, right);
        if (filled)
            painter.text({caption.x + widest, caption.y, caption.width - 2 * widest, words}, value_text(vial),
                         side, theme.ink, Align::centre, "vial value");
        const float tube = std::min(row - words - 0.16F * row, 2.2F * font_size(fonts.body));
        draw_tube(painter, {box.x, caption.bottom() + 0.06F * row, box.width, tube}, vial, filled);
    }
    if (!filled || !noted) return;
    const std::string ends = fmt::format("ends ±{:.0f}", vials[0].whole.scale);
    const std::string what =
        vials[0].ground ? fmt::format("ring: ground ΔE {}   dot: figure ΔE {}",
                                      number_text(comparison->difference.ground_de2000, Sign::only_minus),
                                      number_text(comparison->difference.figure_de2000, Sign::only_minus))
                        : "bubble: the repair   lines: tolerance";
    const Box foot{box.x, box.bottom() - note, box.width, note};
    const float taken = painter.text(foot, ends, fonts.small, theme.ink, Align::right, "vial ends");
    painter.text({foot.x, foot.y, foot.width - taken - font_size(fonts.small), foot.height}, what,
                 fonts.small, theme.ink, Align::left, "vial note");
}

}  // namespace tonemend
