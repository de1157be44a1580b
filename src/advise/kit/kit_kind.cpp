#include "advise/kit/kit_kind.h"

#include <fmt/format.h>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {

const std::vector<KitKindFacts>& kit_kinds() {
    using enum KitKind;
    using Stage = FinishingStage;
    using Group = ColourantGroup;
    static const std::vector<KitKindFacts> kinds{
        {dye_alcohol, "dye-alcohol", "dye in alcohol", "alcohol", Stage::dye, Group::dye,
         DryingKind::dye_alcohol, 9, false},
        {dye_water, "dye-water", "dye in water", "water", Stage::dye, Group::dye, DryingKind::dye_water, 9,
         false},
        {dye_oil, "dye-oil", "dye in oil or spirits", "mineral spirits", Stage::dye, Group::dye,
         DryingKind::dye_oil, 9, false},
        {pigment_oil, "pigment-oil", "pigment stain in oil", "mineral spirits", Stage::pigment,
         Group::pigment, DryingKind::pigment_oil, 5, true},
        {pigment_water, "pigment-water", "pigment stain in water", "water", Stage::pigment, Group::pigment,
         DryingKind::pigment_water, 5, true},
        {glaze, "glaze", "glaze", "mineral spirits", Stage::pigment, Group::pigment, DryingKind::glaze, 3,
         true},
        {toner, "toner", "toner", "lacquer thinner", Stage::toner, Group::pigment, DryingKind::toner, 5,
         false},
        {bleach, "bleach", "wood bleach", "water", Stage::bleach, Group::bleach, DryingKind::dye_water, 0,
         false},
        {sealer, "sealer", "sealer", "alcohol", Stage::seal, std::nullopt, DryingKind::clear, 2, false},
        {clear_coat, "clear", "clear coat", "mineral spirits", Stage::clear, std::nullopt, DryingKind::clear,
         1, false},
    };
    return kinds;
}

const KitKindFacts& facts_of(KitKind kind) {
    return kit_kinds()[static_cast<std::size_t>(kind)];
}

KitKind parse_kit_kind(const std::string& name) {
    std::string names;
    for (const KitKindFacts& facts : kit_kinds()) {
        if (facts.name == name) return facts.kind;
        names += (names.empty() ? "" : ", ") + std::string(facts.name);
    }
    throw InputError(fmt::format("'{}' is no kind of colourant; give one of {}", one_line(name, 60), names));
}

}  // namespace tonemend
