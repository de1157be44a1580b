#include <fmt/format.h>

#include "record/report/area_content.h"
#include "record/report/mix_text.h"
#include "record/report/report_words.h"

namespace tonemend {
namespace {

// What is done, and with what.
std::string work_of(const FinishingStep& step) {
    std::string work = step_words(step.kind);
    if (step.kind == StepKind::other && !step.colourant.empty())
        work = step.colourant;
    else if (!step.colourant.empty())
        work += ": " + step.colourant;
    if (!step.carrier.empty()) work += fmt::format(", in {}", step.carrier);
    if (step.grit > 0)
        work += step.kind == StepKind::sand ? fmt::format(" to {} grit", step.grit)
                                            : fmt::format(", sanded to {} grit", step.grit);
    if (!step.note.empty()) work += "\n" + step.note;
    return work;
}

}  // namespace

ReportTable steps_table(const std::vector<FinishingStep>& steps, Units units) {
    ReportTable table;
    if (steps.empty()) return table;
    table.title = "Schedule";
    table.heads = {"No.", "Step", "Mixed", "Coats", "Wait", "Done"};
    table.widths = {0.7, 3.8, 3.4, 1.1, 1.4, 1.9};
    bool mixed = false, planned = false;
    for (const FinishingStep& step : steps) {
        const std::string mix = mix_text(step, units), wait = wait_text(step.wait_minutes);
        mixed = mixed || !mix.empty();
        planned = planned || step.done.empty();
        table.rows.push_back({{std::to_string(step.place)},
                              {work_of(step)},
                              {mix.empty() ? nothing_there : mix},
                              {step.kind == StepKind::sand ? nothing_there : std::to_string(step.coats)},
                              {wait.empty() ? nothing_there : wait},
                              {step.done.empty() ? "planned" : when_text(step.done)}});
    }
    if (mixed)
        table.below = "Parts are by volume. Stir, and try each mix on a sample board of the same wood first.";
    if (planned) table.below += fmt::format("{}Steps marked planned are not done.", mixed ? " " : "");
    return table;
}

}  // namespace tonemend
