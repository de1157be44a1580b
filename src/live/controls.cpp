#include "live/controls.h"

#include <algorithm>

namespace tonemend {
namespace {

constexpr float button_rounding = 5;

float cap_width(const Painter& painter, std::string_view key, ImFont* font) {
    const float size = font_size(font);
    return std::max(1.5F * size, painter.width(key, font) + 0.7F * size);
}

}  // namespace

float draw_key_cap(Painter& painter, float x, float y, std::string_view key, ImFont* font, Shade ink) {
    const float size = font_size(font);
    const float wide = cap_width(painter, key, font), high = 1.26F * size;
    const Box cap{x, y - 0.5F * high, wide, high};
    painter.outline(cap, ink, std::max(1.0F, 0.08F * size), 0.25F * size);
    painter.text(cap, key, font, ink, Align::centre, "key cap");
    return wide;
}

bool control_fits(const Painter& painter, const Box& box, Action action, std::string_view word) {
    const float small = font_size(painter.fonts.small);
    return cap_width(painter, key_name(action), painter.fonts.small) + 1.2F * small +
               painter.width(word, painter.fonts.small) <=
           box.width;
}

bool draw_control(Painter& painter, const Box& box, Action action, std::string_view word, Weight weight) {
    if (box.empty()) return false;
    ImGui::SetCursorScreenPos({box.x, box.y});
    ImGui::PushID(static_cast<int>(action));
    const bool pressed = ImGui::InvisibleButton("control", {box.width, box.height});
    const bool hovered = ImGui::IsItemHovered(), held = ImGui::IsItemActive();
    ImGui::PopID();
    const Theme& theme = painter.theme;
    const bool strong = weight != Weight::ordinary;
    const Shade ground = strong ? theme.strong : hovered ? theme.touch_hover : theme.touch;
    const Shade ink = strong ? theme.strong_ink : theme.ink;
    painter.fill(box, ground, button_rounding);
    if (held || (strong && hovered)) painter.outline(box, ink, 2, button_rounding);

    const std::string_view key = key_name(action);
    const float pad = 0.4F * font_size(painter.fonts.small);
    if (weight == Weight::main) {
        // The word above its key, both large.
        ImFont* font = painter.fitting(word, box.width - 2 * pad, {painter.fonts.large, painter.fonts.body});
        const float middle = box.middle_y();
        painter.text(
            {box.x + pad, middle - 1.35F * font_size(font), box.width - 2 * pad, 1.3F * font_size(font)},
            word, font, ink, Align::centre, "control take");
        const float cap = cap_width(painter, key, painter.fonts.small);
        draw_key_cap(painter, box.middle_x() - 0.5F * cap, middle + 0.95F * font_size(painter.fonts.small),
                     key, painter.fonts.small, ink);
        return pressed;
    }
    const float taken = draw_key_cap(painter, box.x + pad, box.middle_y(), key, painter.fonts.small, ink);
    const Box label{box.x + 2 * pad + taken, box.y, box.width - taken - 3 * pad, box.height};
    ImFont* font = painter.fitting(word, label.width, {painter.fonts.body, painter.fonts.small});
    painter.text(label, word, font, ink, Align::left, std::string("control ") + std::string(word));
    return pressed;
}

}  // namespace tonemend
