#include "live/picture_marks.h"

#include <algorithm>

namespace tonemend {
namespace {

constexpr Shade held_line{168, 206, 238}, line{240, 240, 240};

ImVec2 to_vec(ScreenPoint point) {
    return {point.x, point.y};
}

float tag_height(const Painter& painter) {
    return 1.3F * font_size(painter.fonts.body);
}

float tag_width(const Painter& painter, std::string_view words) {
    return painter.width(words, painter.fonts.body) + 0.7F * font_size(painter.fonts.body);
}

void fill_tag(Painter& painter, const Box& tag, std::string_view words, Shade ink) {
    painter.list.AddRectFilled({tag.x, tag.y}, {tag.right(), tag.bottom()}, IM_COL32(0, 0, 0, 175), 3);
    const float pad = 0.35F * font_size(painter.fonts.body);
    painter.text({tag.x + pad, tag.y, tag.width - 2 * pad + 1, tag.height}, words, painter.fonts.body, ink,
                 Align::left, "picture tag");
}

}  // namespace

std::vector<ImVec2> on_screen(const ViewTransform& view, const std::vector<Point>& corners) {
    std::vector<ImVec2> points;
    points.reserve(corners.size());
    for (const Point& corner : corners) points.push_back(to_vec(view.to_screen(corner)));
    return points;
}

void draw_outline(Painter& painter, const std::vector<ImVec2>& points, float thickness, Shade shade,
                  ImDrawFlags flags) {
    const auto count = static_cast<int>(points.size());
    painter.list.AddPolyline(points.data(), count, IM_COL32(0, 0, 0, 170), flags, thickness + 2.5F);
    painter.list.AddPolyline(points.data(), count, to_colour(shade), flags, thickness);
}

void draw_card_marks(Painter& painter, const ViewTransform& view, const Quad& card,
                     const std::vector<PatchReading>& patches) {
    const Shade shade = painter.theme.touch_hover;
    draw_outline(painter, on_screen(view, {card.begin(), card.end()}), 1.5F, shade, ImDrawFlags_Closed);
    for (const PatchReading& patch : patches)
        draw_outline(painter, on_screen(view, patch.area.corners), 1.0F, shade, ImDrawFlags_Closed);
}

void draw_region_mark(Painter& painter, const ViewTransform& view, const std::vector<Point>& corners,
                      std::string_view word, Handles handles) {
    const bool held = handles == Handles::corners;
    const auto points = on_screen(view, corners);
    const Shade shade = held ? held_line : line;
    draw_outline(painter, points, held ? 3.0F : 2.0F, shade, ImDrawFlags_Closed);
    if (held) {
        const float side = 0.5F * font_size(painter.fonts.body);
        for (const ImVec2& point : points) {
            painter.list.AddRectFilled({point.x - side, point.y - side}, {point.x + side, point.y + side},
                                       IM_COL32(0, 0, 0, 190));
            painter.list.AddRectFilled({point.x - side + 2, point.y - side + 2},
                                       {point.x + side - 2, point.y + side - 2}, to_colour(shade));
        }
    }
    float left = points.front().x, top = points.front().y;
    for (const ImVec2& point : points) left = std::min(left, point.x), top = std::min(top, point.y);
    const float high = tag_height(painter);
    Box tag{left, top - high - (held ? high * 0.45F : 2), tag_width(painter, word), high};
    tag.x = std::max(tag.x, view.box().x);
    tag.y = std::max(tag.y, view.box().y);
    fill_tag(painter, tag, word, shade);
}

void draw_tag(Painter& painter, float x, float y, std::string_view words, Align align) {
    const float wide = tag_width(painter, words), high = tag_height(painter);
    fill_tag(painter, {align == Align::right ? x - wide : x, y - high, wide, high}, words, line);
}

}  // namespace tonemend
