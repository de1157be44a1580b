#pragma once

#include <span>
#include <string>
#include <vector>

#include "record/kit/kit_shelf.h"

namespace tonemend {

/// Wood and board by names that meet those of other jobs and boards: the wood in small letters, and one that
/// nobody named as its board's own. `board`: uid of the board, or of the piece.
CoatPlace place_of(const std::string& wood, const std::string& board, int grit);

/// What all these boards teach the model.
std::vector<CoatObservation> observations_of(std::span<const KeptBoard> boards, const Kit& kit,
                                             const ModelJars& jars);

}  // namespace tonemend
