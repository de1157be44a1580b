#include "live/verdict_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "picture/text_line.h"
#include "record/number_text.h"

namespace tonemend {
namespace {

constexpr float plate_rounding = 6;

// A dot a step, the ones behind filled, so that a first start is a walk with an end in sight.
void draw_guidance(Painter& painter, const Box& box, const Bench::Guidance& guidance) {
    const Theme& theme = painter.theme;
    const float pad = font_size(painter.fonts.body);
    const Box inner = box.inset(0.8F * pad);
    const float radius = 0.36F * pad;
    for (int i = 1; i <= guidance.steps; ++i) {
        const ImVec2 at{inner.x + radius + static_cast<float>(i - 1) * 3 * radius, inner.y + radius};
        if (i <= guidance.step) {
            painter.list.AddCircleFilled(at, radius, to_colour(theme.ink));
        } else {
            painter.list.AddCircle(at, radius, to_colour(theme.faint), 0, 0.25F * radius);
        }
    }
    const float beside = inner.x + (3 * static_cast<float>(guidance.steps) + 1) * radius;
    painter.text({beside, inner.y - 0.2F * pad, inner.right() - beside, 1.2F * pad},
                 fmt::format("{} of {}: {}", guidance.step, guidance.steps, guidance.name),
                 painter.fonts.small, theme.faint, Align::left, "verdict step");
    const float y = inner.y + 1.6F * pad;
    painter.fitted_paragraph({inner.x, y, inner.width, inner.bottom() - y}, guidance.words,
                             {painter.fonts.large, painter.fonts.body, painter.fonts.small}, theme.ink,
                             "verdict guidance");
}

enum class Interval { stated, left_out };

// "darken by 5.0 ± 0.3, take red off by 3.6 ± 0.2": CIELAB units along L*, a* and b*.
std::string say_amounts(const Comparison& comparison, Interval interval) {
    std::string words;
    for (const Step& step : comparison.direction) {
        const bool light = step.move == Move::darken || step.move == Move::lighten;
        const bool red = step.move == Move::redden || step.move == Move::greenen;
        const double u95 = comparison.difference.lab_u95[light ? 0 : red ? 1 : 2];
        words += fmt::format("{}{} by {}", words.empty() ? "" : ", ", spoken(step.move),
                             number_text(step.amount, Sign::only_minus));
        if (interval == Interval::stated) words += " " + interval_text(u95);
    }
    return words;
}

}  // namespace

void draw_verdict_shape(Painter& painter, Verdict verdict, float x, float y, float radius, Shade ink,
                        Shade ground) {
    ImDrawList& list = painter.list;
    const ImU32 full = to_colour(ink);
    switch (verdict) {
        case Verdict::match:
            list.AddCircleFilled({x, y}, radius, full);
            break;
        case Verdict::close:
            list.AddCircleFilled({x, y}, radius, full);
            list.AddCircleFilled({x, y}, 0.6F * radius, to_colour(ground));
            break;
        case Verdict::off:
            list.AddCircleFilled({x - 0.56F * radius, y}, 0.44F * radius, full);
            list.AddCircleFilled({x + 0.56F * radius, y}, 0.44F * radius, full);
            break;
        case Verdict::undecided:
            list.AddCircleFilled({x, y}, radius, full);
            list.AddCircleFilled({x, y}, 0.8F * radius, to_colour(ground));
            list.AddLine({x - 0.45F * radius, y}, {x + 0.45F * radius, y}, full, 0.2F * radius);
            break;
    }
}

void draw_unfit_shape(Painter& painter, float x, float y, float radius, Shade ink) {
    const float thick = 0.34F * radius;
    painter.list.AddLine({x - radius, y - radius}, {x + radius, y + radius}, to_colour(ink), thick);
    painter.list.AddLine({x - radius, y + radius}, {x + radius, y - radius}, to_colour(ink), thick);
}

void draw_verdict(Painter& painter, const Box& box, const Bench& bench) {
    const Theme& theme = painter.theme;
    const BenchState& state = bench.state();
    if (!state.comparison) {
        painter.fill(box, theme.plate, plate_rounding);
        draw_guidance(painter, box, bench.guidance());
        return;
    }
    const Comparison& comparison = *state.comparison;
    const bool unfit = comparison.unfit();
    const bool match = comparison.verdict == Verdict::match && !state.stale && !unfit;
    const Shade ground = match ? theme.ink : theme.plate;
    const Shade ink = match ? theme.plate : theme.ink, faint = match ? theme.plate : theme.faint;
    painter.fill(box, ground, plate_rounding);

    const Fonts& fonts = painter.fonts;
    const float pad = 0.7F * font_size(fonts.body), huge = font_size(fonts.huge);
    const Box inner = box.inset(pad);
    // Where room is short the figures come before their caption.
    const float small = font_size(fonts.small);
    const bool captioned = inner.height > huge + 1.2F * small;
    const float caption_height = captioned ? 1.2F * small : 0;
    const Box caption{inner.x, inner.bottom() - caption_height, inner.width, caption_height};
    const Box figures{inner.x, inner.y, inner.width, caption.y - inner.y};

    const std::string number = number_text(comparison.difference.de2000, Sign::only_minus);
    const float number_width = painter.width(number, fonts.huge);
    painter.text({figures.x, figures.y, number_width + 1, figures.height}, number, fonts.huge, ink,
                 Align::left, "verdict number");
    const float beside = figures.x + number_width + 1.6F * pad;
    const float room = figures.right() - beside;
    // Right of the figures and as high as they: the word above, the interval below.
    const float block = std::min(figures.height, 1.1F * huge);
    const float top = figures.middle_y() - 0.5F * block, half = 0.5F * block;
    const std::string word = unfit ? "UNFIT" : in_capitals(name(comparison.verdict));
    const float radius = 0.30F * half, indent = 2.9F * radius;
    ImFont* word_font = painter.fitting(word, room - indent, {fonts.word, fonts.large, fonts.body});
    if (unfit) {
        draw_unfit_shape(painter, beside + radius, top + 0.5F * half, radius, ink);
    } else {
        draw_verdict_shape(painter, comparison.verdict, beside + radius, top + 0.5F * half, radius, ink,
                           ground);
    }
    painter.text({beside + indent, top, room - indent, half}, word, word_font, ink, Align::left,
                 "verdict word");
    const std::string interval =
        state.stale && !captioned ? "stale" : interval_text(comparison.difference.de2000_u95);
    ImFont* interval_font = painter.fitting(interval, room, {fonts.word, fonts.large, fonts.body});
    painter.text({beside, top + half, room, half}, interval, interval_font, faint, Align::left,
                 "verdict interval");

    const std::string unit =
        fmt::format("ΔE2000, 95 %   tolerance {}", number_text(comparison.tolerance, Sign::only_minus));
    if (!captioned) return;
    if (state.stale) {
        painter.text(caption, "STALE: last good reading", fonts.small, ink, Align::left, "verdict stale");
    } else {
        painter.text(caption, unit, fonts.small, faint, Align::left, "verdict unit");
    }
}

void draw_move(Painter& painter, const Box& box, const Bench& bench) {
    const BenchState& state = bench.state();
    if (!state.comparison) return;
    const Comparison& comparison = *state.comparison;
    const Fonts& fonts = painter.fonts;
    if (comparison.unfit()) {
        const std::string& reason = comparison.warnings.front().text;
        std::string words = fmt::format("Don't work by it: {}.", reason);
        // What is wrong comes first; all of it, and the cure, stand on the page of warnings too.
        for (const char* ends : {";", ";,"})
            if (!painter.fits(box, words, fonts.small))
                words = fmt::format("Don't work by it: {}.", reason.substr(0, reason.find_first_of(ends)));
        painter.fitted_paragraph(box, words, {fonts.large, fonts.body, fonts.small}, painter.theme.ink,
                                 "move");
        return;
    }
    std::string sentence = say_direction(comparison.direction, comparison.verdict);
    // The move itself comes first; the advice behind it goes where type is large and room short.
    if (!painter.fits(box, sentence, fonts.small)) sentence.resize(sentence.find('.') + 1);
    std::string amounts =
        comparison.verdict == Verdict::match ? "" : say_amounts(comparison, Interval::stated);
    if (painter.width(amounts, fonts.small) > box.width)
        amounts = say_amounts(comparison, Interval::left_out);
    const float line = 1.25F * font_size(fonts.small);
    Box words = box;
    words.height -= line;
    // The sentence is read from farther away than the amounts, which the vials say too.
    const bool room =
        painter.fits(words, sentence, fonts.small) &&
        (painter.fits(words, sentence, fonts.large) || !painter.fits(box, sentence, fonts.large));
    if (!amounts.empty() && room) {
        painter.text({box.x, words.bottom(), box.width, line}, amounts, fonts.small, painter.theme.ink,
                     Align::left, "move amounts");
    } else {
        words = box;
    }
    painter.fitted_paragraph(words, sentence, {fonts.large, fonts.body, fonts.small}, painter.theme.ink,
                             "move");
}

}  // namespace tonemend
