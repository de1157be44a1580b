#include "live/coats_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "live/drying_chip.h"
#include "live/verdict_view.h"
#include "record/number_text.h"

namespace tonemend {
namespace {

void draw_chip(Painter& painter, const Box& box, const Coat& coat, const std::string& now) {
    const Theme& theme = painter.theme;
    const Fonts& fonts = painter.fonts;
    painter.fill(box, theme.plate, 4);
    const float small = font_size(fonts.small), pad = 0.35F * small;
    const Box inner = box.inset(pad);
    const float caption_height = 1.25F * small;
    const Box caption{inner.x, inner.bottom() - caption_height, inner.width, caption_height};
    const std::string when = coat.kept == Kept::saving   ? "keeping"
                             : coat.kept == Kept::failed ? "not kept"
                                                         : short_time(coat.taken, now);
    painter.text(caption, when, fonts.small, theme.ink, Align::left, "coat time");
    const float figures_height = std::min(1.5F * font_size(fonts.large), 0.5F * (caption.y - inner.y));
    const Box figures{inner.x, caption.y - figures_height, inner.width, figures_height};
    ImFont* font = figures_height < font_size(fonts.large) ? fonts.body : fonts.large;
    if (figures_height < font_size(font)) font = fonts.small;
    painter.text(figures, number_text(coat.de2000, Sign::only_minus), font, theme.ink, Align::left,
                 "coat figure");
    const float radius = 0.32F * std::min(figures_height, font_size(fonts.large));
    if (coat.unfit) {
        draw_unfit_shape(painter, inner.right() - 1.2F * radius, figures.middle_y(), radius, theme.ink);
    } else {
        draw_verdict_shape(painter, coat.verdict, inner.right() - 1.2F * radius, figures.middle_y(), radius,
                           theme.ink, theme.plate);
    }
    const Box swatch{inner.x, inner.y, inner.width, figures.y - inner.y - 0.3F * pad};
    const float half = std::floor(0.5F * swatch.width);
    painter.fill({swatch.x, swatch.y, half, swatch.height}, painter.colours.shade_of(coat.original));
    painter.fill({swatch.x + half, swatch.y, swatch.width - half, swatch.height},
                 painter.colours.shade_of(coat.repair));
}

// ΔE2000 from reading to reading, drawn across the swatches where the eye already is; the tolerance is the
// dashed level.
void draw_trend(Painter& painter, const Box& area, const std::vector<ImVec2>& points, float tolerance_y) {
    if (points.size() < 2) return;
    for (float x = area.x; x < area.right(); x += 10)
        painter.list.AddLine({x, tolerance_y}, {std::min(x + 5, area.right()), tolerance_y},
                             to_colour(painter.theme.ink, 0.8F), 1);
    painter.list.AddPolyline(points.data(), static_cast<int>(points.size()), to_colour(painter.theme.ink),
                             ImDrawFlags_None, 2);
    for (const ImVec2& point : points)
        painter.list.AddCircleFilled(point, 3.5F, to_colour(painter.theme.ink));
}

}  // namespace

void draw_coats(Painter& painter, const Box& whole, Bench& bench) {
    const std::vector<Coat>& coats = bench.coats();
    const Theme& theme = painter.theme;
    const Fonts& fonts = painter.fonts;
    const float body = font_size(fonts.body);
    const float gap = 0.4F * body, chip = std::min(5.6F * body, whole.width);
    const float strip = std::floor(0.24F * whole.height);
    // What dries stands where its reading will: after the last one.
    const auto drying = bench.state().drying;
    Box box = whole;
    if (drying) box.width = std::max(0.0F, box.width - chip - gap);
    const auto draw_drying = [&](float x) {
        if (drying) draw_drying_chip(painter, {x, whole.y + strip, chip, whole.height - strip}, *drying);
    };
    if (coats.empty()) {
        draw_drying(whole.x);
        if (drying) box.x += chip + gap;
        painter.fitted_paragraph(
            box.inset(0.5F * body),
            "No reading kept in this job yet. Each one stands here with its colours and ΔE2000, "
            "coat after coat.",
            {fonts.body, fonts.small}, painter.theme.ink, "coats empty");
        return;
    }
    const auto room = std::max<std::size_t>(1, static_cast<std::size_t>((box.width + gap) / (chip + gap)));
    const std::size_t shown = std::min(room, coats.size()), first = coats.size() - shown;
    // A strip over the chips carries the trend.
    double most = 2 * bench.settings().tolerance;
    for (std::size_t i = first; i < coats.size(); ++i) most = std::max(most, coats[i].de2000);
    const auto level = [&](double de) { return box.y + 4 + static_cast<float>(1 - de / most) * (strip - 8); };
    const std::string now = utc_now();
    std::vector<ImVec2> points;
    std::optional<std::size_t> chosen;
    for (std::size_t i = 0; i < shown; ++i) {
        const Coat& coat = coats[first + i];
        const Box place{box.x + static_cast<float>(i) * (chip + gap), box.y + strip, chip,
                        box.height - strip};
        draw_chip(painter, place, coat, now);
        if (bench.before_coat() == first + i) painter.outline(place, theme.strong, 3, 4);
        ImGui::SetCursorScreenPos({place.x, place.y});
        ImGui::PushID(static_cast<int>(i));
        if (ImGui::InvisibleButton("coat", {place.width, place.height})) chosen = first + i;
        ImGui::PopID();
        points.push_back({place.middle_x(), level(coat.de2000)});
    }
    draw_trend(painter, {box.x, box.y, static_cast<float>(shown) * (chip + gap) - gap, strip}, points,
               level(bench.settings().tolerance));
    draw_drying(box.x + static_cast<float>(shown) * (chip + gap));
    if (chosen) bench.show_before(*chosen);
    if (first > 0) {  // left of the trend's first point
        const std::string before = fmt::format("← {}", first);
        const Box words{box.x, box.y, painter.width(before, fonts.small) + 4, font_size(fonts.small) * 1.2F};
        painter.fill(words, theme.surround);
        painter.text(words, before, fonts.small, theme.ink, Align::left, "coats before");
    }
}

}  // namespace tonemend
