#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "advise/kit/kit_kind.h"

namespace tonemend {

/// What can hurt someone at this work.
enum class Danger { dust, lead, bleach, solvent, skin, oily_rags, spray };

/// What is usually done about it, one or two sentences. The label and safety sheet come before: see
/// caution_order.
std::string_view caution_text(Danger danger);
/// What goes at the end of every list of cautions.
inline constexpr std::string_view caution_order =
    "The product's label and safety sheet, local rules and licensed practice come before anything that is "
    "said "
    "here.";

/// What a kind brings with it. `carrier` decides whether it can burn, and whether its rags can heat.
std::set<Danger> dangers_of(KitKind kind, const std::string& carrier);

/// The cautions for these dangers, each once, with caution_order at the end; empty without dangers.
std::vector<std::string> say_cautions(const std::set<Danger>& dangers);

/// Whether something in that carrier, or of that name, is taken to burn: all that does not say water, and
/// what says both. `text` in small letters.
bool may_burn(std::string_view text);
/// Whether it names an oil that dries, whose rags heat by themselves. `text` in small letters.
bool names_drying_oil(std::string_view text);

}  // namespace tonemend
