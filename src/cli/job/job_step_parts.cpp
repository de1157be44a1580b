// Coats: done, planned, carried over.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "cli/job/add_part.h"
#include "cli/job/job_choice.h"
#include "cli/job/job_parts.h"
#include "cli/job/job_text.h"
#include "cli/output.h"
#include "record/kit/kit_shelf.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

struct StepOptions {
    JobChoice choice;
    FinishingStep step;
    std::string kind = "other";
    bool planned = false;
    int place = 0;
    JobChoice to;
};

void record_job_coat(StepOptions& options) {
    options.step.kind = parse_step_kind(options.kind);
    const ChosenArea place = choose_area(options.choice);
    options.step.area = place.area.uid;
    options.step.done = options.planned ? "" : utc_now();
    std::string text = "  " + say_step(place.store->add_step(options.step));
    const bool names_jar = !options.step.colourant.empty();
    const std::vector<KeptKit> kits = KitShelf(*place.store).kits();
    const bool known = std::any_of(kits.begin(), kits.end(), [&](const KeptKit& kept) {
        return kept.kit.find(options.step.colourant).has_value();
    });
    if (names_jar && !kits.empty() && !known)
        text += "  mind: no kit has a jar of that name, so that no plan learns from this step\n";
    print_out(text);
}

void mark_done(StepOptions& options) {
    const ChosenArea place = choose_area(options.choice);
    for (FinishingStep& step : place.store->steps(place.area.uid)) {
        if (step.place != options.place) continue;
        step.done = utc_now();
        place.store->finish_step(step.uid, step.done);
        return print_out("  " + say_step(step));
    }
    throw InputError(fmt::format("there is no step {}; 'tonemend job show {}' lists them", options.place,
                                 place.job.number));
}

void carry_over(StepOptions& options) {
    const auto store = open_chosen(options.choice);
    const Job from = store->find_job(options.choice.job), to = store->find_job(options.to.job);
    const Area area = store->find_area(to.uid, options.to.area, options.to.piece);
    const auto steps = store->copy_recipe(
        store->find_area(from.uid, options.choice.area, options.choice.piece).uid, area.uid);
    std::string text = fmt::format("  to job {}, area {}:\n", to.number, area.name);
    for (const FinishingStep& step : steps) text += "  " + say_step(step);
    print_out(text);
}

}  // namespace

void add_job_step_parts(CLI::App& job, ExitStatus& status) {
    const auto options = std::make_shared<StepOptions>();
    CLI::App* coat =
        add_part(job, status, "coat", "Record a step: what was put on, and how", options, record_job_coat);
    add_job_choice(*coat, options->choice);
    add_area_choice(*coat, options->choice);
    coat->add_option("--kind", options->kind,
                     "sand, bleach, dye, seal, pigment, glaze, toner, clear or other")
        ->required();
    coat->add_option("--colourant", options->step.colourant, "Colourant or product, as you call it");
    coat->add_option("--carrier", options->step.carrier, "alcohol, water, oil, …");
    coat->add_option("--dilution", options->step.dilution,
                     "Parts of thinner to parts of colourant, as 2:1; 0:1 is undiluted");
    coat->add_option("--coats", options->step.coats, "How many, 1 to 20")->capture_default_str();
    coat->add_option("--grit", options->step.grit, "That the wood was sanded to");
    coat->add_option("--wait", options->step.wait_minutes,
                     "Minutes that it has to dry; the label's come first");
    coat->add_option("--note", options->step.note, "Anything else");
    coat->add_flag("--planned", options->planned, "It is still to be done");

    CLI::App* done = add_part(job, status, "done", "A planned step is done", options, mark_done);
    add_job_choice(*done, options->choice);
    done->add_option("step", options->place, "Its number")->required();
    add_area_choice(*done, options->choice);

    CLI::App* copy = add_part(job, status, "copy-recipe", "The steps of one job as a plan for another",
                              options, carry_over);
    copy->add_option("from", options->choice.job, "The job that has them: number or name")->required();
    copy->add_option("to", options->to.job, "The job that gets them")->required();
    copy->add_option("--from-area", options->choice.area, "Of which area; else the newest");
    copy->add_option("--from-piece", options->choice.piece, "On which piece");
    copy->add_option("--to-piece", options->to.piece, "On which piece");
    copy->add_option("--to-area", options->to.area, "To which area; else the newest");
    add_store_option(*copy, options->choice);
}

}  // namespace tonemend
