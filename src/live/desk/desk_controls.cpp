#include "live/desk/desk_controls.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "live/controls.h"

namespace tonemend {

bool pressed_at(const Box& box, int id) {
    ImGui::SetCursorScreenPos({box.x, box.y});
    ImGui::PushID(id);
    const bool pressed =
        ImGui::InvisibleButton("desk", {std::max(1.0F, box.width), std::max(1.0F, box.height)});
    ImGui::PopID();
    return pressed;
}

bool clicked_line(Bench& bench, const Box& box, std::size_t line, bool selected) {
    if (!pressed_at(box, static_cast<int>(line))) return false;
    if (selected)
        bench.press_desk(DeskKey::enter);
    else
        bench.select_on_desk(line);
    return true;
}

Box draw_desk_controls(Painter& painter, const Box& box, std::initializer_list<DeskControl> controls,
                       Bench& bench) {
    ImFont* font = painter.fonts.small;
    const float size = font_size(font), height = 1.9F * size, gap = 0.9F * size;
    const auto wide = [&](const DeskControl& control) {
        return std::max(1.5F * size, painter.width(control.cap, font) + 0.7F * size) + 0.5F * size +
               painter.width(control.word, font) + 1;
    };
    std::vector<std::pair<const DeskControl*, Box>> places;
    float x = box.x, y = 0;
    for (const DeskControl& control : controls) {
        if (x > box.x && x + wide(control) > box.right()) x = box.x, y += height;
        places.push_back({&control, {x, y, wide(control), height}});
        x += wide(control) + gap;
    }
    const float top = box.bottom() - y - height;
    for (auto& [control, place] : places) {
        place.y += top;
        const float cap =
            draw_key_cap(painter, place.x, place.middle_y(), control->cap, font, painter.theme.ink);
        painter.text({place.x + cap + 0.5F * size, place.y, place.width - cap - 0.5F * size, place.height},
                     control->word, font, painter.theme.ink, Align::left, "desk control");
        if (pressed_at(place, 1000 + static_cast<int>(control->key))) bench.press_desk(control->key);
    }
    return {box.x, box.y, box.width, top - box.y - 0.4F * size};
}

void draw_field(Painter& painter, const Box& box, std::string_view text, bool typed_into) {
    painter.outline(box, typed_into ? painter.theme.strong : painter.theme.faint, typed_into ? 2 : 1, 3);
    const float pad = 0.4F * font_size(painter.fonts.body);
    const float used = painter.text({box.x + pad, box.y, box.width - 2.5F * pad, box.height}, text,
                                    painter.fonts.body, painter.theme.ink, Align::left, "");
    if (!typed_into) return;
    const float x = std::min(box.x + pad + used + 2, box.right() - pad);
    painter.list.AddLine({x, box.y + pad}, {x, box.bottom() - pad}, to_colour(painter.theme.ink), 2);
}

}  // namespace tonemend
