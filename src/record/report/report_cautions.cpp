#include "record/report/report_cautions.h"

#include <algorithm>
#include <initializer_list>
#include <string_view>

#include "picture/small_letters.h"

namespace tonemend {
namespace {

struct Dangers {
    bool dust = false, bleach = false, solvent = false, skin = false, oil = false, spray = false,
         strip = false;
};

bool names_any(const std::string& text, std::initializer_list<std::string_view> words) {
    return std::any_of(words.begin(), words.end(),
                       [&](std::string_view word) { return text.find(word) != std::string::npos; });
}

// Only a step that says water and no solvent is held to be free of what burns.
bool may_burn(const std::string& text) {
    return !names_any(text, {"water", "acrylic", "latex"}) ||
           names_any(text, {"alcohol", "spirit", "solvent", "thinner", "lacquer", "acetone", "naphtha",
                            "turpentine", "oil", "shellac"});
}

void add_dangers(const FinishingStep& step, Dangers& dangers) {
    const std::string text = in_small_letters(step.colourant + " " + step.carrier + " " + step.note);
    dangers.oil = dangers.oil || names_any(text, {"oil", "linseed", "tung", "alkyd", "varnish"});
    dangers.spray =
        dangers.spray || step.kind == StepKind::toner || names_any(text, {"spray", "aerosol", "airbrush"});
    dangers.strip = dangers.strip || names_any(text, {"strip"});
    dangers.bleach =
        dangers.bleach || step.kind == StepKind::bleach || names_any(text, {"bleach", "oxalic", "peroxide"});
    dangers.dust = dangers.dust || step.kind == StepKind::sand || step.grit > 0 ||
                   names_any(text, {"sand", "scrape", "rub down"});
    if (step.kind == StepKind::sand) return;
    dangers.skin = true;
    dangers.solvent = dangers.solvent || (step.kind != StepKind::bleach && may_burn(text));
}

}  // namespace

std::vector<std::string> cautions_for(const std::vector<FinishingStep>& steps) {
    if (steps.empty()) return {};
    Dangers dangers;
    for (const FinishingStep& step : steps) add_dangers(step, dangers);
    std::vector<std::string> cautions;
    if (dangers.dust)
        cautions.emplace_back(
            "Sanding dust harms lungs, and fine dust can burn: take it off at its source and wear a dust "
            "mask that the work asks for.");
    if (dangers.dust || dangers.strip)
        cautions.emplace_back("An old finish can hold lead: have it tested before it is sanded or stripped.");
    if (dangers.bleach)
        cautions.emplace_back(
            "Bleaches burn skin and eyes: wear gloves and goggles that stand up to them, and never mix "
            "bleaches with each other or with anything else.");
    if (dangers.solvent)
        cautions.emplace_back(
            "Stains, finishes and their solvents can burn: ventilate, and keep flames, sparks and hot lamps "
            "away until all is dry.");
    if (dangers.skin)
        cautions.emplace_back(
            "Keep products off skin and out of lungs: wear gloves that stand up to them and the respirator "
            "that the product asks for.");
    if (dangers.oil)
        cautions.emplace_back(
            "Rags with oil or oil stain can heat by themselves and catch fire: lay them out flat to dry "
            "outdoors, or keep them under water in a closed metal can.");
    if (dangers.spray)
        cautions.emplace_back(
            "Spray mist burns easily and goes deep into lungs: spray only with exhaust ventilation made for "
            "it, away from anything that can light it, and with the respirator that the product asks for.");
    cautions.emplace_back(
        "The product's label and safety sheet, local rules and licensed practice come before anything in "
        "this report.");
    return cautions;
}

}  // namespace tonemend
