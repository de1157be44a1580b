#include "live/drying_chip.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tonemend {
namespace {

// A clock face; its hand has gone round by `share`, 0..1.
void draw_clock(Painter& painter, float x, float y, float radius, double share) {
    const ImU32 ink = to_colour(painter.theme.ink);
    painter.list.AddCircle({x, y}, radius, ink, 0, 2);
    const auto hand = [&](double turn, float length) {
        const double angle = 2 * std::numbers::pi * turn;
        painter.list.AddLine({x, y},
                             {x + length * static_cast<float>(std::sin(angle)),
                              y - length * static_cast<float>(std::cos(angle))},
                             ink, 2);
    };
    hand(0, 0.55F * radius);
    hand(std::clamp(share, 0.0, 0.999), 0.85F * radius);
}

std::string still_words(const DryingReport& report) {
    switch (report.state) {
        case DryingState::watching:
            return "watching";
        case DryingState::settling:
            return fmt::format("~{:.0f} min", std::ceil(report.fit.minutes.middle));
        case DryingState::settled:
            return fmt::format("{:.0f} min", report.seen_minutes);
    }
    return "";
}

}  // namespace

void draw_drying_chip(Painter& painter, const Box& box, const DryingSaid& said) {
    const Fonts& fonts = painter.fonts;
    const DryingReport& report = said.report;
    painter.fill(box, painter.theme.plate, 4);
    const float small = font_size(fonts.small), pad = 0.35F * small;
    const Box inner = box.inset(pad);
    const float line = 1.25F * small;
    const Box caption{inner.x, inner.bottom() - line, inner.width, line};
    const Box figures{inner.x, caption.y - line, inner.width, line};
    const bool settled = report.state == DryingState::settled;
    painter.text(caption,
                 settled                 ? "settled"
                 : !said.trouble.empty() ? "not read"
                                         : "drying",
                 fonts.small, painter.theme.ink, Align::left, "drying word");
    const std::string still = still_words(report);
    painter.text(figures, still, painter.fitting(still, figures.width, {fonts.body, fonts.small}),
                 painter.theme.ink, Align::left, "drying figure");
    if (report.readings == 0) return;
    const Box swatch{inner.x, inner.y, inner.width, figures.y - inner.y - 0.3F * pad};
    const float half = std::floor(0.5F * swatch.width);
    painter.fill({swatch.x, swatch.y, half, swatch.height}, painter.colours.shade_of(report.fit.wet));
    painter.fill({swatch.x + half, swatch.y, swatch.width - half, swatch.height},
                 painter.colours.shade_of(report.fit.now));
    const double whole = report.seen_minutes + report.fit.minutes.middle;
    const float radius = 0.4F * line;
    draw_clock(painter, inner.right() - radius - 1, caption.middle_y(), radius,
               settled || whole <= 0 ? 1 : report.seen_minutes / whole);
}

}  // namespace tonemend
