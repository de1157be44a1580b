#include "live/trust_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "record/number_text.h"

namespace tonemend {
namespace {

// A triangle for what makes a reading unfit, a bar for what is to be kept in mind, a disc when all is well.
void draw_mark(Painter& painter, float x, float y, float radius, const Warning* warning) {
    const ImU32 ink = to_colour(painter.theme.ink);
    if (warning == nullptr) {
        painter.list.AddCircleFilled({x, y}, 0.75F * radius, ink);
    } else if (warning->unfit) {
        painter.list.AddTriangleFilled({x, y - radius}, {x - radius, y + 0.8F * radius},
                                       {x + radius, y + 0.8F * radius}, ink);
    } else {
        painter.list.AddRectFilled({x - 0.3F * radius, y - radius}, {x + 0.3F * radius, y + radius}, ink);
    }
}

std::string sentence(const Warning& warning) {
    std::string text = warning.text;
    if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    return text + ".";
}

}  // namespace

void draw_trust(Painter& painter, const Box& box, const Bench& bench) {
    const BenchState& state = bench.state();
    if (!state.comparison) return;
    const Theme& theme = painter.theme;
    const Fonts& fonts = painter.fonts;
    const std::vector<Warning> warnings = bench.warnings();
    const float small = font_size(fonts.small);
    const float foot_height = 1.25F * small;
    const Box foot{box.x, box.bottom() - foot_height, box.width, foot_height};
    const float radius = 0.42F * font_size(fonts.body), indent = 3.2F * radius;
    const Box words{box.x + indent, box.y, box.width - indent, foot.y - box.y};
    draw_mark(painter, box.x + radius, box.y + 0.62F * font_size(fonts.body), radius,
              warnings.empty() ? nullptr : &warnings.front());
    if (warnings.empty()) {
        painter.paragraph(words, "Reading good.", fonts.body, theme.ink, "trust");
    } else {
        painter.paragraph(words, sentence(warnings.front()), fonts.small, theme.ink, "");
    }
    const std::string more = warnings.size() > 1    ? fmt::format("W  {} more", warnings.size() - 1)
                             : warnings.size() == 1 ? "W  whole text"
                                                    : "";
    const float taken =
        more.empty() ? 0 : painter.text(foot, more, fonts.small, theme.ink, Align::right, "trust more");
    const double blank =
        std::max(state.comparison->original.blank_de2000, state.comparison->repair.blank_de2000);
    const Box rest{foot.x, foot.y, foot.width - taken - small, foot.height};
    const std::string figure = number_text(blank, Sign::only_minus),
                      even = state.calibration->flat_field ? "light evened out   " : "",
                      whole = even + "blank: one region against itself reads " + figure;
    painter.text(rest, painter.width(whole, fonts.small) <= rest.width ? whole : even + "blank " + figure,
                 fonts.small, theme.ink, Align::left, "trust blank");
}

void draw_warnings_page(Painter& painter, const Box& box, const Bench& bench) {
    painter.fill(box, painter.theme.plate, 6);
    const Fonts& fonts = painter.fonts;
    const float pad = font_size(fonts.body);
    Box rest = box.inset(0.7F * pad);
    const auto step = [&](float by) { rest.y += by, rest.height -= by; };
    step(painter.paragraph(rest, "What speaks against this reading", fonts.body, painter.theme.ink,
                           "warnings") +
         0.4F * pad);
    const BenchState& state = bench.state();
    const std::vector<Warning> warnings = bench.warnings();
    if (warnings.empty()) {
        painter.paragraph(rest,
                          state.comparison ? "Nothing: the reading is good." : "There is no reading yet.",
                          fonts.body, painter.theme.ink, "warnings");
        return;
    }
    // About three lines a warning; smaller type rather than one left out. They come worst first, and what
    // does not fit even so is counted.
    ImFont* font = static_cast<float>(warnings.size()) * 4.2F * pad > rest.height ? fonts.small : fonts.body;
    const float size = font_size(font), radius = 0.42F * size, line = 1.3F * size;
    for (std::size_t i = 0; i < warnings.size(); ++i) {
        const Warning& warning = warnings[i];
        const std::string text = (warning.unfit ? "Unfit. " : "") + sentence(warning);
        Box words{rest.x + 3.2F * radius, rest.y, rest.width - 3.2F * radius, rest.height};
        if (i + 1 < warnings.size()) words.height -= line;
        if (i > 0 && !painter.fits(words, text, font)) {
            painter.paragraph(rest, fmt::format("{} more: mend these first.", warnings.size() - i), font,
                              painter.theme.faint, "warnings");
            return;
        }
        draw_mark(painter, rest.x + radius, rest.y + 0.62F * size, radius, &warning);
        step(painter.paragraph(words, text, font, painter.theme.ink, "warnings") + 0.35F * size);
    }
}

}  // namespace tonemend
