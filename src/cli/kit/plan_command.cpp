// What to put on next.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>
#include <set>

#include "advise/kit/cautions.h"
#include "advise/schedule/cup.h"
#include "cli/commands.h"
#include "cli/finish_facts_options.h"
#include "cli/job/job_choice.h"
#include "cli/kit/kit_text.h"
#include "cli/kit/plan_json.h"
#include "cli/kit/plan_text.h"
#include "cli/output.h"
#include "picture/text_line.h"
#include "record/kit/area_plan.h"
#include "record/kit/kit_words.h"

namespace tonemend {
namespace {

struct PlanOptions {
    JobChoice choice;
    PlanWishes wishes;
    PlanTextOptions text;
    std::vector<std::string> cup;
    bool json = false, keep = false;
};

// "Walnut 4=2" and "thinner=6".
Cup parse_cup(const std::vector<std::string>& texts, const AreaPlan& plan) {
    Cup cup;
    for (const std::string& text : texts) {
        const std::size_t sign = text.rfind('=');
        char* end = nullptr;
        const double parts = sign == std::string::npos ? 0 : std::strtod(text.c_str() + sign + 1, &end);
        constexpr double most = 1000;
        if (sign == std::string::npos || *end != '\0' || !(parts > 0 && parts <= most))
            throw InputError(
                fmt::format("--cup '{}': give what is in it by parts, for example --cup 'Walnut 4=2' "
                            "thinner=4",
                            one_line(text, 60)));
        const std::string name = text.substr(0, sign);
        if (name == "thinner") {
            cup.thinner += parts;
            continue;
        }
        const auto jar = plan.kit.find(name);
        if (!jar || !plan.jars.colourant[*jar])
            throw InputError(fmt::format("--cup '{}': kit '{}' has no colourant of that name",
                                         one_line(name, 60), plan.kit.name));
        const std::size_t colourant = *plan.jars.colourant[*jar];
        const auto there = std::find_if(cup.parts.begin(), cup.parts.end(),
                                        [&](const Cup::Part& part) { return part.colourant == colourant; });
        if (there == cup.parts.end())
            cup.parts.push_back({colourant, parts});
        else
            there->parts += parts;
    }
    if (cup.parts.empty())
        throw InputError("--cup: there is no colourant in it; name what is, for example 'Walnut 4=2'");
    return cup;
}

std::string say_cup_move(const CoatMove& move, const AreaPlan& plan) {
    const Lab lab = whole_of(move.finished);
    return fmt::format(
        "L* {:.1f}  a* {:.1f}  b* {:.1f}{}, about ΔE2000 {:.1f}{}", lab.L, lab.a, lab.b,
        plan.finish ? " with the finish on" : "", move.expected_de2000,
        move.too_dark > 0.5 ? fmt::format(", may come out too dark by {:.1f}", move.too_dark) : "");
}

// What is in one cup must go with each other, and over what is there.
void require_one_carrier(const Cup& cup, const MoveQuestion& question, const AreaPlan& plan) {
    const ShelfJar* first = nullptr;
    for (const Cup::Part& part : cup.parts) {
        const KitJar& jar = plan.kit.jars[plan.jars.jar_of[part.colourant]];
        const auto found = std::find_if(question.shelf.begin(), question.shelf.end(),
                                        [&](const ShelfJar& one) { return one.colourant == part.colourant; });
        if (found == question.shelf.end())
            throw InputError(
                fmt::format("--cup: '{}' does not go over what is on the wood already", jar.name));
        if (first != nullptr && (first->mixes_with.empty() || first->mixes_with != found->mixes_with))
            throw InputError(
                fmt::format("--cup: '{}' does not mix with the other: another carrier or kind", jar.name));
        first = &*found;
    }
}

std::string say_cup(const AreaPlan& plan, const Cup& cup) {
    const MoveQuestion question = to_move_question(plan.question);
    require_one_carrier(cup, question, plan);
    std::string text = fmt::format("  in the cup ({:g} parts): {}\n", cup.total(),
                                   say_cup_move(try_cup(question, cup), plan));
    auto additions = rank_additions(question, cup, 3);
    constexpr double dark = 0.5;
    std::erase_if(additions, [](const CupAddition& addition) { return addition.move.too_dark > dark; });
    if (additions.empty())
        return text + "  nothing that may be added makes it better without going too dark\n";
    text += additions.size() == 1 ? "  better:\n" : "  better, one of these:\n";
    std::set<Danger> dangers;
    for (const CupAddition& addition : additions) {
        const KitJar& jar =
            plan.kit.jars[plan.jars.jar_of[addition.colourant.value_or(cup.parts.front().colourant)]];
        dangers.merge(dangers_of(jar.kind, jar.carrier));
        text += fmt::format("    add {:g} part{} {}: {}\n", addition.parts, addition.parts == 1 ? "" : "s",
                            addition.colourant ? jar.name : jar.carrier, say_cup_move(addition.move, plan));
    }
    return text + "  parts as in --cup. Stir, try it on a scrap, read it dry\n" + caution_block(dangers);
}

// The best schedule as planned steps of the job.
int keep_as_steps(JobStore& store, const AreaPlan& plan) {
    if (plan.schedules.empty()) throw InputError("there is no schedule to keep");
    for (const FinishingStep& step : store.steps(plan.area.uid))
        if (step.done.empty())
            throw InputError(
                fmt::format("the area has planned steps already ({}. '{}'); mark them as done ('tonemend job "
                            "done {}') or take them back ('tonemend job undo {}')",
                            step.place, step.colourant, plan.job.number, plan.job.number));
    std::vector<FinishingStep> planned;
    for (const ScheduleStep& step : plan.schedules.front().steps)
        for (FinishingStep& coat : steps_of(step.move.coats, plan)) planned.push_back(std::move(coat));
    return static_cast<int>(store.add_steps(std::move(planned)).size());
}

ExitStatus run_plan(PlanOptions& options) {
    const ChosenArea place = choose_area(options.choice);
    const auto plan = plan_area(*place.store, place.area.uid, options.wishes);
    if (!options.cup.empty()) {
        print_out(say_cup(*plan, parse_cup(options.cup, *plan)));
        return ExitStatus::measured;
    }
    std::string text =
        options.json ? plan_json(*plan, options.text.square_centimetres) : say_plan(*plan, options.text);
    if (options.keep) {
        const int kept = keep_as_steps(*place.store, *plan);
        if (!options.json)
            text += fmt::format("  {} planned steps are in the job; 'tonemend job done' marks one as done\n",
                                kept);
    }
    print_out(text);
    return ExitStatus::measured;
}

}  // namespace

void add_plan_command(CLI::App& app, ExitStatus& status) {
    const auto options = std::make_shared<PlanOptions>();
    CLI::App* command = app.add_subcommand(
        "plan",
        "What to put on next: the coats that bring a job's repair to its original in the fewest safe steps");
    add_job_choice(*command, options->choice);
    add_area_choice(*command, options->choice);
    add_kit_choice(*command, options->wishes.kit);
    command->add_option("--finish", options->wishes.finish,
                        "The clear finish that goes on at the end; else the one that is on, or the kit's");
    add_finish_facts(*command, options->wishes.finish_facts);
    command->add_flag(
        "--as-they-are", options->wishes.as_they_are,
        "Both are bare, or both have their finish on: they are held against each other as they are");
    command->add_option("--steps", options->wishes.most_steps, "At most so many coats, 1 to 5")
        ->check(CLI::Range(1, 5))
        ->capture_default_str();
    command->add_option("--tolerance", options->wishes.tolerance, "ΔE2000 at which it is good, 0.05 to 20")
        ->check(CLI::Range(0.05, 20.0))
        ->capture_default_str();
    command->add_option("--square-cm", options->text.square_centimetres, "Area to be coated, for the amounts")
        ->check(CLI::Range(1.0, 1e6))
        ->capture_default_str();
    command->add_flag("--us", options->text.us, "Fluid ounces in place of millilitres");
    command->add_option(
        "--cup", options->cup,
        "What is in the cup already, by parts, as --cup 'Walnut 4=2' thinner=4: what to add to it");
    command->add_flag("--keep", options->keep, "Write the best schedule into the job as planned steps");
    command->add_flag("--json", options->json, "Print one JSON object and nothing else");
    command->callback([options, &status] {
        options->text.swatches = detect_swatches();
        status = run_plan(*options);
    });
}

}  // namespace tonemend
