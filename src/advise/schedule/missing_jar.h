#pragma once

#include <optional>

#include "advise/schedule/next_move.h"

namespace tonemend {

/// A jar that the kit lacks.
struct MissingJar {
    HueWord hue = HueWord::yellow;
    ColourantGroup group = ColourantGroup::dye;
    double de2000 = 0;  ///< foretold with one coat of a usual jar of that hue on top
};

/// Which usual jar, put on where a schedule ends, would bring it nearest to the target; nothing when none
/// brings it nearer by a fifth. `from`: what the wood looks like then, bare, and `question` as it was planned
/// with.
std::optional<MissingJar> find_missing_jar(const MoveQuestion& question, const WoodLook& from);

}  // namespace tonemend
