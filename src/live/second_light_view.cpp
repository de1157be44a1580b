#include "live/second_light_view.h"

#include <fmt/format.h>

#include "measure/light_words.h"
#include "picture/text_line.h"
#include "record/number_text.h"

namespace tonemend {
namespace {

std::string reading_words(double de2000, double u95) {
    return number_text(de2000, Sign::only_minus) + " " + interval_text(u95);
}

// One light to a line: its name at the left, its ΔE2000 at the right.
void draw_light(Painter& painter, const Box& line, const std::string& name, const std::string& reading) {
    ImFont* font = painter.fonts.body;
    const float taken =
        painter.text(line, reading, font, painter.theme.ink, Align::right, "second light number");
    const Box words{line.x, line.y, line.width - taken - font_size(painter.fonts.small), line.height};
    painter.text(words, name, painter.fitting(name, words.width, {font, painter.fonts.small}),
                 painter.theme.ink, Align::left, "second light name");
}

std::string sentence(const HeldComparison& held) {
    if (!held.change) return "Light one is held. Change the lamp, touch nothing else, then press J again.";
    return say_shift(*held.change, "this light");
}

// Where there is room for little.
std::string brief(const HeldComparison& held) {
    if (!held.change) return "Light one held: change lamp, J";
    return fmt::format("{}: {} in light one, {} now", in_capitals(name(held.change->verdict)),
                       number_text(held.first->pair.comparison.difference.de2000, Sign::only_minus),
                       number_text(held.now_de2000, Sign::only_minus));
}

}  // namespace

void draw_second_light(Painter& painter, const Box& box, const BenchState& state) {
    if (!state.held) return;
    const HeldComparison& held = *state.held;
    const Difference& first = held.first->pair.comparison.difference;
    painter.fill(box, painter.theme.plate, 6);
    const float pad = 0.5F * font_size(painter.fonts.body), line = 1.3F * font_size(painter.fonts.body);
    Box rest = box.inset(pad);
    if (rest.height < 4.5F * line) {
        painter.fitted_paragraph(box, brief(held), {painter.fonts.body, painter.fonts.small},
                                 painter.theme.ink, "second light");
        return;
    }
    const auto take = [&](float height) {
        const Box top{rest.x, rest.y, rest.width, height};
        rest.y += height, rest.height -= height;
        return top;
    };
    draw_light(painter, take(line), held.first->pair.light.name,
               reading_words(first.de2000, first.de2000_u95));
    if (held.change) {
        draw_light(painter, take(line), "now", reading_words(held.now_de2000, held.now_u95));
        draw_light(painter, take(line), in_capitals(name(held.change->verdict)),
                   "parts by " + number_text(held.change->parting, Sign::only_minus));
    }
    painter.fitted_paragraph(rest, sentence(held), {painter.fonts.body, painter.fonts.small},
                             painter.theme.ink, "second light");
}

std::string second_light_word(const BenchState& state) {
    if (!state.held) return "";
    return state.held->change ? std::string(name(state.held->change->verdict)) : "held";
}

}  // namespace tonemend
