#include "record/report/report_cautions.h"

#include <algorithm>
#include <initializer_list>
#include <set>
#include <string_view>

#include "advise/kit/cautions.h"
#include "picture/small_letters.h"

namespace tonemend {
namespace {

bool says_any(const std::string& text, std::initializer_list<std::string_view> words) {
    return std::any_of(words.begin(), words.end(),
                       [&](std::string_view word) { return text.find(word) != std::string::npos; });
}

void add_dangers(const FinishingStep& step, std::set<Danger>& dangers) {
    const std::string text = in_small_letters(step.colourant + " " + step.carrier + " " + step.note);
    const auto when = [&](bool there, Danger danger) {
        if (there) dangers.insert(danger);
    };
    when(names_drying_oil(text), Danger::oily_rags);
    when(step.kind == StepKind::toner || says_any(text, {"spray", "aerosol", "airbrush"}), Danger::spray);
    when(step.kind == StepKind::bleach || says_any(text, {"bleach", "oxalic", "peroxide"}), Danger::bleach);
    const bool dust =
        step.kind == StepKind::sand || step.grit > 0 || says_any(text, {"sand", "scrape", "rub down"});
    when(dust, Danger::dust);
    when(dust || says_any(text, {"strip"}), Danger::lead);
    if (step.kind == StepKind::sand) return;
    dangers.insert(Danger::skin);
    when(step.kind != StepKind::bleach && may_burn(text), Danger::solvent);
}

}  // namespace

std::vector<std::string> cautions_for(const std::vector<FinishingStep>& steps) {
    std::set<Danger> dangers;
    for (const FinishingStep& step : steps) add_dangers(step, dangers);
    std::vector<std::string> lines = say_cautions(dangers);
    if (lines.empty() && !steps.empty()) lines.emplace_back(caution_order);
    return lines;
}

}  // namespace tonemend
