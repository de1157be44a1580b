#include "live/desk/desk_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "live/desk/desk_controls.h"
#include "record/number_text.h"

namespace tonemend {
namespace {

std::string words_of(const DeskLine& line) {
    std::string words = fmt::format("{}   {}", line.job.number, line.job.name);
    for (const std::string& part : {line.piece, line.wood, line.area.name})
        if (!part.empty()) words += "  ·  " + part;
    if (!line.job.closed.empty()) words += "  ·  closed";
    return words;
}

std::string figures_of(const DeskLine& line) {
    if (line.readings == 0) return "no reading";
    return fmt::format("{}  ΔE {}", line.readings, number_text(line.de2000, Sign::only_minus));
}

}  // namespace

void draw_jobs_page(Painter& painter, const Box& box, Bench& bench) {
    const Theme& theme = painter.theme;
    const JobDesk& desk = bench.desk();
    painter.fill(box, theme.plate, 6);
    const float body = font_size(painter.fonts.body), row = 1.7F * body;
    const Box inner = draw_desk_controls(painter, box.inset(0.6F * body),
                                         {{DeskKey::enter, "Enter", "readings go here"},
                                          {DeskKey::start, "Ctrl N", "start a job"},
                                          {DeskKey::add, "Ctrl A", "add an area"},
                                          {DeskKey::copy, "Ctrl R", "copy its recipe"},
                                          {DeskKey::close, "Ctrl D", "close, open"},
                                          {DeskKey::undo, "Ctrl Z", "take back"},
                                          {DeskKey::leave, "Esc", "back"}},
                                         bench);
    const float label = painter.width("find or name", painter.fonts.small) + body;
    painter.text({inner.x, inner.y, label, row}, "find or name", painter.fonts.small, theme.ink, Align::left,
                 "desk label");
    draw_field(painter, {inner.x + label, inner.y, inner.width - label, row}, desk.typed(), true);
    const Box list{inner.x, inner.y + 1.3F * row, inner.width, inner.height - 1.3F * row};
    if (desk.lines().empty()) {
        painter.paragraph(list,
                          desk.typed().empty()
                              ? "No job yet. Type a name and press Ctrl N; or just take readings, and "
                                "they go to a job of their own."
                              : "No such job. Ctrl N starts one of that name.",
                          painter.fonts.body, theme.ink, "desk empty");
        return;
    }
    const auto room = static_cast<std::size_t>(std::max(1.0F, list.height / row));
    const std::size_t first = desk.selected() < room ? 0 : desk.selected() - room + 1;
    for (std::size_t i = first; i < desk.lines().size() && i < first + room; ++i) {
        const DeskLine& line = desk.lines()[i];
        const Box place{list.x, list.y + static_cast<float>(i - first) * row, list.width, row};
        const bool chosen = i == desk.selected();
        if (chosen) painter.fill(place, theme.strong, 3);
        const Shade ink = chosen ? theme.strong_ink : theme.ink;
        const std::string figures = figures_of(line);
        const float taken = painter.width(figures, painter.fonts.small) + body;
        const float mark = line.area.uid == desk.current() ? 0.9F * body : 0;
        if (mark > 0)
            painter.list.AddCircleFilled({place.x + 0.5F * body, place.middle_y()}, 0.22F * body,
                                         to_colour(ink));
        painter.text({place.x + 0.3F * body + mark, place.y, place.width - taken - 0.3F * body - mark, row},
                     words_of(line), painter.fonts.body, ink, Align::left, "");
        painter.text({place.right() - taken, place.y, taken - 0.3F * body, row}, figures, painter.fonts.small,
                     ink, Align::right, "desk figures");
        if (clicked_line(bench, place, i, chosen)) return;  // the list may be another now
    }
}

void draw_coat_page(Painter& painter, const Box& box, Bench& bench) {
    const Theme& theme = painter.theme;
    const CoatForm& form = bench.coat_form();
    painter.fill(box, theme.plate, 6);
    const float body = font_size(painter.fonts.body);
    const Box inner = draw_desk_controls(
        painter, box.inset(0.6F * body),
        {{DeskKey::enter, "Enter", "record it as done now"}, {DeskKey::leave, "Esc", "back"}}, bench);
    const float row = std::min(1.9F * body, inner.height / (CoatForm::fields + 1.0F));
    ImFont* label_font = painter.fonts.small;
    painter.text({inner.x, inner.y, inner.width, row}, fmt::format("A coat on {}", bench.place_words()),
                 painter.fonts.body, theme.ink, Align::left, "");
    float labels = 0;
    for (const CoatForm::Line& line : form.lines())
        labels = std::max(labels, painter.width(line.label, label_font));
    labels += body;
    const float helps = 0.34F * inner.width;
    const auto lines = form.lines();
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const Box place{inner.x, inner.y + static_cast<float>(i + 1) * row, inner.width, row - 0.2F * body};
        painter.text({place.x, place.y, labels, place.height}, lines[i].label, label_font, theme.ink,
                     Align::left, "coat label");
        const Box field{place.x + labels, place.y, place.width - labels - helps, place.height};
        draw_field(painter, field, lines[i].text, i == form.selected());
        const float pad = 0.6F * body;
        if (painter.width(lines[i].help, label_font) < helps - pad)
            painter.text({field.right() + pad, place.y, helps - pad, place.height}, lines[i].help, label_font,
                         theme.faint, Align::left, "coat help");
        if (pressed_at(field, static_cast<int>(i))) bench.select_on_desk(i);
    }
}

}  // namespace tonemend
