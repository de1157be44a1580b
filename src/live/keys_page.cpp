#include "live/keys_page.h"

#include <algorithm>
#include <cmath>

#include "live/actions.h"
#include "live/controls.h"

namespace tonemend {

std::optional<Action> draw_keys_page(Painter& painter, const Box& box) {
    const Theme& theme = painter.theme;
    const Fonts& fonts = painter.fonts;
    painter.fill(box, theme.plate, 6);
    const Box inner = box.inset(0.6F * font_size(fonts.body));
    const auto& lines = action_help();
    const auto count = static_cast<float>(lines.size());
    // As many columns as give every line its height; the explanations go first where there is no room for
    // them.
    const float least_row = 1.28F * font_size(fonts.small);
    const float columns = std::clamp(std::ceil(count * least_row / inner.height), 1.0F, 4.0F);
    const float rows = std::ceil(count / columns),
                row = std::min(inner.height / rows, 2.1F * font_size(fonts.body));
    const float gap = font_size(fonts.body), width = (inner.width - gap * (columns - 1)) / columns;
    float caps = 0, words = 0;
    for (const ActionHelp& line : lines) {
        caps = std::max({caps, 1.5F * font_size(fonts.small),
                         painter.width(line.key, fonts.small) + 0.7F * font_size(fonts.small)});
        words = std::max(words, painter.width(line.word, fonts.small));
    }
    std::optional<Action> pressed;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const float column = std::floor(static_cast<float>(i) / rows),
                    at = static_cast<float>(i) - column * rows;
        const Box place{inner.x + column * (width + gap), inner.y + at * row, width, row};
        ImGui::SetCursorScreenPos({place.x, place.y});
        ImGui::PushID(static_cast<int>(i));
        if (ImGui::InvisibleButton("line", {place.width, place.height})) pressed = lines[i].action;
        if (ImGui::IsItemHovered()) painter.fill(place, theme.touch, 4);
        ImGui::PopID();
        const float gap_after = 0.5F * font_size(fonts.small);
        const float cap =
            draw_key_cap(painter, place.x, place.middle_y(), lines[i].key, fonts.small, theme.ink);
        // Words stand in a column of their own unless that is too narrow; then each follows its key.
        const float indent = (caps + gap_after + words <= place.width ? caps : cap) + gap_after;
        painter.text({place.x + indent, place.y, std::min(words + 1, place.width - indent), row},
                     lines[i].word, fonts.small, theme.ink, Align::left, "keys word");
        const float help = indent + words + font_size(fonts.small);
        if (place.width - help > painter.width(lines[i].help, fonts.small))
            painter.text({place.x + help, place.y, place.width - help, row}, lines[i].help, fonts.small,
                         theme.faint, Align::left, "keys help");
    }
    return pressed;
}

}  // namespace tonemend
