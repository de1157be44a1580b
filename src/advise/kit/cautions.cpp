#include "advise/kit/cautions.h"

#include <algorithm>
#include <initializer_list>

#include "picture/small_letters.h"

namespace tonemend {
namespace {

bool has_any(std::string_view text, std::initializer_list<std::string_view> words) {
    return std::any_of(words.begin(), words.end(),
                       [&](std::string_view word) { return text.find(word) != std::string_view::npos; });
}

}  // namespace

std::string_view caution_text(Danger danger) {
    switch (danger) {
        case Danger::dust:
            return "Sanding dust harms lungs, and fine dust can burn: take it off at its source and wear a "
                   "dust "
                   "mask that the work asks for.";
        case Danger::lead:
            return "An old finish can hold lead: have it tested before it is sanded or stripped.";
        case Danger::bleach:
            return "Bleaches burn skin and eyes: wear gloves and goggles that stand up to them, and never "
                   "mix "
                   "bleaches with each other or with anything else.";
        case Danger::solvent:
            return "Stains, finishes and their solvents can burn: ventilate, and keep flames, sparks and hot "
                   "lamps "
                   "away until all is dry.";
        case Danger::skin:
            return "Keep products off skin and out of lungs: wear gloves that stand up to them and the "
                   "respirator "
                   "that the product asks for.";
        case Danger::oily_rags:
            return "Rags with oil or oil stain can heat by themselves and catch fire: lay them out flat to "
                   "dry "
                   "outdoors, or keep them under water in a closed metal can.";
        default:
            return "Spray mist burns easily and goes deep into lungs: spray only with exhaust ventilation "
                   "made for "
                   "it, away from anything that can light it, and with the respirator that the product asks "
                   "for.";
    }
}

bool may_burn(std::string_view text) {
    return !has_any(text, {"water", "acrylic", "latex"}) ||
           has_any(text, {"alcohol", "spirit", "solvent", "thinner", "lacquer", "acetone", "naphtha",
                          "turpentine", "oil", "shellac"});
}

bool names_drying_oil(std::string_view text) {
    return has_any(text, {"oil", "linseed", "tung", "alkyd", "varnish"});
}

std::set<Danger> dangers_of(KitKind kind, const std::string& carrier) {
    const std::string text = in_small_letters(carrier);
    std::set<Danger> dangers{Danger::skin};
    if (kind == KitKind::bleach) dangers.insert(Danger::bleach);
    if (kind != KitKind::bleach && may_burn(text)) dangers.insert(Danger::solvent);
    const bool oily = kind == KitKind::dye_oil || kind == KitKind::pigment_oil || kind == KitKind::glaze ||
                      kind == KitKind::clear_coat;
    // What an oil stain is thinned with may not say so.
    if (oily || names_drying_oil(text)) dangers.insert(Danger::oily_rags);
    if (kind == KitKind::toner) dangers.insert(Danger::spray);
    return dangers;
}

std::vector<std::string> say_cautions(const std::set<Danger>& dangers) {
    std::vector<std::string> lines;
    for (const Danger danger : dangers) lines.emplace_back(caution_text(danger));
    if (!lines.empty()) lines.emplace_back(caution_order);
    return lines;
}

}  // namespace tonemend
