#include "cli/kit/plan_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "advise/kit/cautions.h"
#include "cli/kit/kit_text.h"
#include "record/kit/kit_words.h"
#include "record/number_text.h"

namespace tonemend {
namespace {

std::string lab_words(const Lab& lab) {
    return fmt::format("L* {:>5.1f}  a* {:>5.1f}  b* {:>5.1f}", lab.L, lab.a, lab.b);
}

// As parts, and as much as the area asks for, though no part below what can be measured; of a jar that was
// never tried no volumes.
std::string say_mixture(const std::vector<AppliedCoat>& coats, const AreaPlan& plan,
                        const PlanTextOptions& options) {
    double least = 1;
    for (const AppliedCoat& coat : coats) {
        if (!plan.tried[coat.colourant])
            return say_parts(coats, plan) + "; no volumes: '" + jar_of(plan, coat).name +
                   "' was never read on a strip";
        least = std::min(least, coat.concentration);
    }
    const double needed = coat_millilitres(options.square_centimetres);
    constexpr double measurable = 1, whole = 5;
    const double made = needed * least >= measurable ? needed : whole * std::ceil(measurable / least / whole);
    return fmt::format("{}; for {:g} cm²{}: {}", say_parts(coats, plan), options.square_centimetres,
                       made > needed ? fmt::format(" ({:.1f} ml) make {:.0f} ml", needed, made) : "",
                       say_volumes(coats, plan, made, options.us));
}

// The darkest that it may come out, by the price's margin.
double dark_end(const CoatMove& move, const AreaPlan& plan) {
    return whole_of(move.finished).L - plan.question.price.margin * move.sd_lightness;
}

std::string step_lines(const ScheduleStep& step, std::size_t number, const AreaPlan& plan,
                       const PlanTextOptions& options) {
    const CoatMove& move = step.move;
    const KitJar& jar = jar_of(plan, move.coats.front());
    std::string text = fmt::format("    {}. {} {}\n       mix {}\n", number, jar.facts().what,
                                   coat_names(move.coats, plan), say_mixture(move.coats, plan, options));
    text += fmt::format("       {}{}{}\n", swatch(whole_of(move.finished), options.swatches),
                        lab_words(whole_of(move.finished)), plan.finish ? "  with the finish on" : "");
    if (plan.finish) {
        const Lab bare = whole_of(move.bare.look);
        const auto u95 = move.bare.whole_u95();
        text += fmt::format("       bare and dry it should read L* {:.1f} {}, a* {:.1f} {}, b* {:.1f} {}\n",
                            bare.L, interval_text(u95[0]), bare.a, interval_text(u95[1]), bare.b,
                            interval_text(u95[2]));
    }
    text += fmt::format(
        "       about ΔE2000 {:.1f} from the original then ({:.1f} if it comes out just so); at its "
        "darkest L* {:.1f}, the original {:.1f}\n",
        move.expected_de2000, move.de2000, dark_end(move, plan), whole_of(plan.question.target).L);
    if (move.second_de2000)
        text +=
            fmt::format("       under {} about ΔE2000 {:.1f}, as far as a smooth change of colour tells\n",
                        plan.second_light, *move.second_de2000);
    text += fmt::format("       wait {}, then read before the next coat\n", say_wait(jar));
    return text;
}

// Between dye and pigment a thin sealer keeps the one from lifting the other: common practice, no source.
std::string seal_line(const Schedule& schedule, std::size_t step, const AreaPlan& plan) {
    const auto stage_at = [&](std::size_t i) {
        return jar_of(plan, schedule.steps[i].move.coats.front()).facts().stage;
    };
    const FinishingStage before = step == 0 ? plan.lessons.stage : stage_at(step - 1);
    if (before != FinishingStage::dye || stage_at(step) != FinishingStage::pigment) return "";
    for (const KitJar& jar : plan.kit.jars)
        if (jar.kind == KitKind::sealer)
            return fmt::format("    first '{}', thin, over the dry dye; wait {}\n", jar.name, say_wait(jar));
    return "";
}

std::string short_step(const ScheduleStep& step, std::size_t number, const AreaPlan& plan,
                       const PlanTextOptions& options) {
    const CoatMove& move = step.move;
    return fmt::format("    {}. {}: {}\n       {}{}, about ΔE2000 {:.1f}\n", number,
                       jar_of(plan, move.coats.front()).facts().what, say_mixture(move.coats, plan, options),
                       swatch(whole_of(move.finished), options.swatches), lab_words(whole_of(move.finished)),
                       move.expected_de2000);
}

std::string when_off(const Schedule& schedule, const AreaPlan& plan) {
    std::string text =
        "  If a coat comes out off: too light, another one, thinned, after a new reading and plan.";
    bool dye = false, pigment = false, toner = false;
    for (const ScheduleStep& step : schedule.steps) {
        const FinishingStage stage = jar_of(plan, step.move.coats.front()).facts().stage;
        dye = dye || stage == FinishingStage::dye;
        pigment = pigment || stage == FinishingStage::pigment;
        toner = toner || stage == FinishingStage::toner;
    }
    if (pigment)
        text += " Too dark, a pigment stain or glaze: wipe some off with its thinner while it is fresh.";
    if (dye)
        text +=
            " Too dark, a dye: its own solvent lifts a little, the rest stays; bleach or sanding back is "
            "what is left, "
            "so go there in thin coats.";
    if (dye)
        text +=
            " A further coat of dye in the same solvent lifts the one below: one pass and no rubbing, or "
            "spray; a "
            "finish or sealer in that solvent does so too.";
    if (toner) text += " Too dark, a toner: rub it back before the next clear coat.";
    return text + " (common practice)\n";
}

std::string missing_lines(const AreaPlan& plan) {
    if (!plan.nearest) return "";
    const double de2000 = plan.nearest->de2000;
    if (!plan.out_of_reach()) {
        if (!plan.schedules.empty() && plan.near_enough(plan.schedules.front().last().de2000)) return "";
        return fmt::format(
            "  It stops on the light side on purpose: as readings make it surer, the kit gets to about "
            "ΔE2000 {:.1f}.\n\n",
            de2000);
    }
    std::string text = fmt::format(
        "  This kit does not get there, so think twice before you begin: the nearest is ΔE2000 {:.1f}. What "
        "is missing then: {}.\n",
        de2000, say_missing(plan.nearest->missing));
    if (plan.missing)
        text += fmt::format("  {}\n", say_missing_jar(*plan.missing));
    else if (plan.nearest->missing[0] > 1)
        text += "  It would have to go lighter: bleach or sanding; no stain does it.\n";
    return text + "\n";
}

std::string nothing_line(const AreaPlan& plan) {
    if (plan.nearest && plan.nearest->de2000 < plan.now.de2000 - 1)
        return "  Nothing in this kit is sure enough yet not to spoil it: put what it has on strips of this "
               "wood first, "
               "read them, and plan again ('tonemend board guide').\n\n";
    return "  Nothing in this kit brings it nearer.\n\n";
}

std::string grit_words(const AreaPlan& plan) {
    return plan.lessons.grit_said
               ? fmt::format("sanded to {}", plan.lessons.grit)
               : fmt::format("grit not said ('job coat --grit'), {} taken", plan.question.place.grit);
}

// What the plan takes for granted.
std::string taken_line(const AreaPlan& plan) {
    if (plan.finish)
        return "  Taken: the original has its finish on, the repair is bare and dry. If both are alike: "
               "--as-they-are.\n\n";
    if (plan.lessons.finished)
        return "  Taken: both have their finish on, as the job says; only toner may follow.\n\n";
    return "  Taken: both are bare, or both have their finish on; they are held against each other as they "
           "are.\n\n";
}

std::string history_lines(const AreaPlan& plan) {
    std::string text;
    for (const ForetoldAndCame& one : plan.history)
        text +=
            fmt::format("    {}: foretold {}, came out {}: ΔE2000 {:.1f}{}\n", coat_names(one.coats, plan),
                        lab_words(whole_of(one.foretold.look)), lab_words(whole_of(one.came.look)),
                        one.de2000, one.inside ? "" : ", further off than the ± said");
    return text.empty() ? text : "  So far (bare):\n" + text + "\n";
}

std::string trust_lines(const AreaPlan& plan) {
    std::string text;
    if (plan.coats_on_wood == 0) {
        text += fmt::format(
            "  No coat was read on {} yet: what is foretold is a guess, and no one-coat plan should be "
            "trusted. First, on a scrap of it:\n",
            plan.piece.wood.empty() ? "this wood" : plan.piece.wood);
        for (const StripAdvice& one : plan.check_strips)
            text += fmt::format("    {}, {}{}\n", plan.kit.jars[one.jar].name,
                                say_thinning(one.thinner, plan.kit.jars[one.jar].carrier),
                                one.second ? ", a second coat on the same strip" : "");
        text +=
            "  'tonemend board new' keeps such a board; one strip on the job's own wood is worth ten on "
            "others.\n\n";
    }
    return text;
}

// Of kinds of which nothing was recorded in this area yet; with them all of the plan's own.
std::string caution_lines(const AreaPlan& plan) {
    std::set<Danger> dangers;
    for (const Schedule& schedule : plan.schedules)
        for (const ScheduleStep& step : schedule.steps)
            for (const std::size_t jar : step.jars) {
                const auto colourant = plan.jars.colourant[jar];
                const bool shown = colourant && plan.lessons.earlier[*colourant] > 0;
                if (!shown) dangers.merge(dangers_of(plan.kit.jars[jar].kind, plan.kit.jars[jar].carrier));
            }
    return caution_block(dangers);
}

}  // namespace

std::string say_plan(const AreaPlan& plan, const PlanTextOptions& options) {
    const Lab target = whole_of(plan.question.target), now = whole_of(plan.now.finished);
    std::string text = fmt::format("\n  job {} '{}': {}, {}; {}, {}; reading {}\n", plan.job.number,
                                   plan.job.name, plan.piece.name, plan.area.name,
                                   plan.piece.wood.empty() ? "wood not said" : plan.piece.wood,
                                   grit_words(plan), plan.lessons.newest_number);
    text += fmt::format(
        "  learnt from {} coats, {} on this wood{}\n\n", plan.coats_seen, plan.coats_on_wood,
        plan.finish
            ? fmt::format("; finish {}: from {}",
                          plan.finish_name.empty() ? "of the usual kind" : "'" + plan.finish_name + "'",
                          plan.finish_pairs == 0 ? std::string("physics alone")
                                                 : fmt::format("{} pairs of your own", plan.finish_pairs))
            : "");
    text += fmt::format("  original  {}{}\n", swatch(target, options.swatches), lab_words(target));
    text += fmt::format("  repair    {}{}   ΔE2000 {:.1f}{}\n\n", swatch(now, options.swatches),
                        lab_words(now), plan.now.de2000, plan.finish ? " with the finish on, as it is" : "");
    text += taken_line(plan) + history_lines(plan) + trust_lines(plan);
    if (plan.now.de2000 <= plan.question.tolerance)
        return text + (plan.finish ? "  It is there: put the finish on, let it dry, and read again.\n"
                                   : "  It is there: leave it.\n");
    text += missing_lines(plan);
    if (plan.schedules.empty()) text += nothing_line(plan);
    for (std::size_t i = 0; i < plan.schedules.size(); ++i) {
        text += i == 0 ? "  Best:\n" : fmt::format("  Or ({}):\n", i + 1);
        const Schedule& schedule = plan.schedules[i];
        for (std::size_t step = 0; step < schedule.steps.size(); ++step)
            text += seal_line(schedule, step, plan) +
                    (i == 0 ? step_lines(schedule.steps[step], step + 1, plan, options)
                            : short_step(schedule.steps[step], step + 1, plan, options));
        if (plan.finish && !plan.finish_name.empty() && i == 0)
            text += fmt::format("    then '{}', and read with it on\n", plan.finish_name);
        text += "\n";
    }
    if (!plan.schedules.empty())
        text +=
            "  Do the first coat only, let it dry, take a reading, and plan again: each reading makes the "
            "rest surer.\n" +
            when_off(plan.schedules.front(), plan) +
            "  Amounts: 110 ml a square metre and a fifth to spare, common practice. Try each mixture on a "
            "scrap.\n\n" +
            caution_lines(plan);
    return text;
}

}  // namespace tonemend
