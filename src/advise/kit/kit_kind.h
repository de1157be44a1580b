#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "advise/model/coat_effect.h"
#include "measure/drying_kind.h"

namespace tonemend {

/// What a jar of the kit is.
enum class KitKind {
    dye_alcohol,
    dye_water,
    dye_oil,
    pigment_oil,
    pigment_water,
    glaze,
    toner,
    bleach,
    sealer,
    clear_coat,
};

/// The trade's order from the wood up (common practice, no source): lighten first, set the ground with dye,
/// seal, set the figure with pigment or glaze, tone the finish, coat it.
enum class FinishingStage { bleach, dye, seal, pigment, toner, clear };

/// What is usual for a kind: common practice, no source. The label comes first.
struct KitKindFacts {
    KitKind kind = KitKind::dye_alcohol;
    std::string_view name;     ///< as commands take it: "dye-alcohol"
    std::string_view what;     ///< for people: "dye in alcohol"
    std::string_view carrier;  ///< and thinner: "alcohol"
    FinishingStage stage = FinishingStage::dye;
    std::optional<ColourantGroup> group;  ///< how it colours; none: it does not, or hardly
    DryingKind drying = DryingKind::unknown;
    double most_thinner = 9;  ///< parts to one of colourant; 0: it is not thinned
    bool wipes_back = false;  ///< while fresh, with its thinner
};

/// In the order of KitKind.
const std::vector<KitKindFacts>& kit_kinds();
const KitKindFacts& facts_of(KitKind kind);
/// Throws InputError that lists the names.
KitKind parse_kit_kind(const std::string& name);

}  // namespace tonemend
