// The page of the plan: the repair's colour beside the original's after each coat, as a stair.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "advise/kit/cautions.h"
#include "live/desk/desk_controls.h"
#include "live/desk/desk_view.h"
#include "record/kit/kit_words.h"
#include "record/number_text.h"

namespace tonemend {
namespace {

// What is drawn from top to bottom, until there is no more room.
struct Rows {
    Painter& painter;
    Box rest;
    float body;

    bool room(float height) const { return rest.height >= height; }
    Box take(float height) {
        const Box top{rest.x, rest.y, rest.width, height};
        rest.y += height, rest.height -= height;
        return top;
    }
};

// Two colours edge to edge, then words in two lines.
void draw_pair_row(Rows& rows, const Lab& left, const Lab& right, const std::string& first,
                   const std::string& second) {
    Painter& painter = rows.painter;
    const float small = font_size(painter.fonts.small), height = 1.5F * rows.body + 1.35F * small;
    if (!rows.room(height + 0.3F * rows.body)) return;
    const Box row = rows.take(height + 0.3F * rows.body);
    const float wide = std::min(7 * rows.body, 0.24F * row.width);
    painter.fill({row.x, row.y, 0.5F * wide, height}, painter.colours.shade_of(left));
    painter.fill({row.x + 0.5F * wide, row.y, 0.5F * wide, height}, painter.colours.shade_of(right));
    const float x = row.x + wide + 0.6F * rows.body, width = row.right() - x;
    painter.text({x, row.y, width, 1.5F * rows.body}, first,
                 painter.fitting(first, width, {painter.fonts.body, painter.fonts.small}), painter.theme.ink,
                 Align::left, "");
    painter.text({x, row.y + 1.5F * rows.body, width, 1.35F * small}, second, painter.fonts.small,
                 painter.theme.ink, Align::left, "");
}

void draw_words(Rows& rows, const std::string& words, ImFont* font) {
    if (words.empty() || !rows.room(1.35F * font_size(font))) return;
    const Box box{rows.rest.x, rows.rest.y, rows.rest.width, rows.rest.height};
    if (!rows.painter.fits(box, words, font)) return;
    const float used = rows.painter.paragraph(box, words, font, rows.painter.theme.ink, "plan words");
    rows.take(std::min(rows.rest.height, used + 0.3F * rows.body));
}

std::string step_words(const ScheduleStep& step, const AreaPlan& plan) {
    const KitJar& jar = plan.kit.jars[step.jars.front()];
    return fmt::format("{}: {}", jar.facts().what, say_parts(step.move.coats, plan));
}

std::string step_figures(const ScheduleStep& step, const AreaPlan& plan) {
    const Lab bare = whole_of(step.move.bare.look);
    const auto u95 = step.move.bare.whole_u95();
    const KitJar& jar = plan.kit.jars[step.jars.front()];
    return fmt::format(
        "then about ΔE2000 {:.1f}; dry it should read L* {:.1f} {}  a* {:.1f} {}  b* {:.1f} {}; wait {}",
        step.move.expected_de2000, bare.L, interval_text(u95[0]), bare.a, interval_text(u95[1]), bare.b,
        interval_text(u95[2]), say_minutes(jar.wait_minutes()));
}

std::string nearest_words(const AreaPlan& plan) {
    if (!plan.out_of_reach()) return {};
    std::string words = fmt::format("This kit gets to about ΔE2000 {:.1f}. Missing then: {}.",
                                    plan.nearest->de2000, say_missing(plan.nearest->missing));
    if (plan.missing) words += " " + say_missing_jar(*plan.missing);
    return words;
}

std::string caution_words(const AreaPlan& plan, const Schedule& schedule) {
    std::set<Danger> dangers;
    for (const ScheduleStep& step : schedule.steps)
        for (const std::size_t jar : step.jars)
            dangers.merge(dangers_of(plan.kit.jars[jar].kind, plan.kit.jars[jar].carrier));
    std::string words;
    for (const std::string& line : say_cautions(dangers)) words += (words.empty() ? "" : " ") + line;
    return words;
}

void draw_plan(Rows& rows, const AreaPlan& plan, std::size_t chosen) {
    Painter& painter = rows.painter;
    const Lab target = whole_of(plan.question.target);
    draw_words(rows,
               fmt::format("{}, {}: {}. Learnt from {} coats, {} on this wood.", plan.piece.name,
                           plan.area.name, plan.piece.wood.empty() ? "wood not said" : plan.piece.wood,
                           plan.coats_seen, plan.coats_on_wood),
               painter.fonts.small);
    if (!plan.history.empty()) {
        const ForetoldAndCame& last = plan.history.back();
        draw_pair_row(
            rows, whole_of(last.foretold.look), whole_of(last.came.look),
            fmt::format("last coat: foretold at the left, came out at the right, ΔE2000 {:.1f}", last.de2000),
            last.inside ? "within what was said of it; the rest is planned by what came"
                        : "farther off than was said; the rest is planned by what came");
    }
    draw_pair_row(
        rows, target, whole_of(plan.now.finished),
        fmt::format("now: the original at the left, the repair at the right, ΔE2000 {:.1f}", plan.now.de2000),
        plan.finish ? "bare, and so as it is foretold to look with the finish on" : "as both were read");
    if (plan.coats_on_wood == 0) {
        std::string words = "No coat was read on this wood yet, so this is a guess. First, on a scrap of it:";
        for (const StripAdvice& one : plan.check_strips) {
            const KitJar& jar = plan.kit.jars[one.jar];
            words += fmt::format(" {}, {}{};", jar.name, say_thinning(one.thinner, jar.carrier),
                                 one.second ? ", twice" : "");
        }
        words.back() = '.';
        draw_words(rows, words, painter.fonts.small);
    }
    if (plan.now.de2000 <= plan.question.tolerance) {
        draw_words(rows, "It is there. Put the finish on, let it dry, and read again.", painter.fonts.body);
        return;
    }
    if (plan.schedules.empty()) {
        draw_words(rows, "Nothing in this kit brings it nearer without going too dark.", painter.fonts.body);
    } else {
        const Schedule& schedule = plan.schedules[chosen];
        for (std::size_t i = 0; i < schedule.steps.size(); ++i)
            draw_pair_row(rows, target, whole_of(schedule.steps[i].move.finished),
                          fmt::format("{}. {}", i + 1, step_words(schedule.steps[i], plan)),
                          step_figures(schedule.steps[i], plan));
    }
    draw_words(rows, nearest_words(plan), painter.fonts.small);
    if (!plan.schedules.empty())
        draw_words(rows, caution_words(plan, plan.schedules[chosen]), painter.fonts.small);
}

}  // namespace

void draw_plan_page(Painter& painter, const Box& box, Bench& bench) {
    const PlanDesk& desk = bench.plan_desk();
    painter.fill(box, painter.theme.plate, 6);
    const float body = font_size(painter.fonts.body);
    const bool several = desk.plan() && desk.plan()->schedules.size() > 1;
    const Box inner = draw_desk_controls(
        painter, box.inset(0.6F * body),
        {{DeskKey::enter, "Enter", "the first coat is on"},
         {DeskKey::later, "↑ ↓", several ? "other plans" : "only one plan"},
         {DeskKey::right, "← →", desk.as_they_are() ? "the repair is bare" : "both have the finish"},
         {DeskKey::leave, "Esc", "back"}},
        bench);
    Rows rows{painter, inner, body};
    if (!desk.plan()) {
        painter.paragraph(inner, desk.trouble(), painter.fonts.body, painter.theme.ink, "plan trouble");
        return;
    }
    if (several)
        draw_words(rows, fmt::format("Plan {} of {}", desk.chosen() + 1, desk.plan()->schedules.size()),
                   painter.fonts.body);
    draw_plan(rows, *desk.plan(), desk.chosen());
}

void draw_board_page(Painter& painter, const Box& box, Bench& bench) {
    const BoardDesk& desk = bench.board_desk();
    const Theme& theme = painter.theme;
    painter.fill(box, theme.plate, 6);
    const float body = font_size(painter.fonts.body), row = 1.7F * body;
    const Box inner =
        draw_desk_controls(painter, box.inset(0.6F * body),
                           {{DeskKey::enter, "Enter", "read that strip at the repair's mark, or: it is on"},
                            {DeskKey::leave, "Esc", "back"}},
                           bench);
    Rows rows{painter, inner, body};
    draw_words(rows, desk.title(), painter.fonts.body);
    for (std::size_t i = 0; i < desk.lines().size() && rows.room(row); ++i) {
        const BoardLine& line = desk.lines()[i];
        const Box place = rows.take(row);
        const bool chosen = i == desk.selected();
        if (chosen) painter.fill(place, theme.strong, 3);
        const Shade ink = chosen ? theme.strong_ink : theme.ink;
        const float taken = painter.width(line.figures, painter.fonts.small) + body;
        painter.text({place.x + 0.3F * body, place.y, place.width - taken - 0.3F * body, row}, line.words,
                     painter.fitting(line.words, place.width - taken - 0.3F * body,
                                     {painter.fonts.body, painter.fonts.small}),
                     ink, Align::left, "");
        painter.text({place.right() - taken, place.y, taken - 0.3F * body, row}, line.figures,
                     painter.fonts.small, ink, Align::right, "");
        if (clicked_line(bench, place, i, chosen)) return;  // the list may be another now
    }
    draw_words(rows,
               "Sand all of the board alike. Read the bare wood, put a coat on, let it dry as its label "
               "says, put the "
               "repair's mark on the strip and read it; finish a part at the end and read that with "
               "'tonemend board read "
               "--finish'.",
               painter.fonts.small);
}

}  // namespace tonemend
