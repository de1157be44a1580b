#pragma once

#include <cstdint>

#include "practice/grain.h"
#include "practice/lamp.h"
#include "practice/options.h"
#include "practice/recipe.h"

namespace tonemend {

/// A stained wood: its colour under a lamp at each node of darkness.
using NodeXyz = std::array<XYZ, darkness_nodes>;
NodeXyz tabulate_xyz(const WoodKind& wood, const Recipe& recipe, const Lamp& lamp);
/// Mean XYZ of the wood that the weights describe.
XYZ mean_xyz(const NodeXyz& nodes, const NodeWeights& weights);

/// How original and repair came about.
struct Pair {
    Recipe original;
    Recipe repair;
};

/// What to look for: a pair whose long-run means are `difference` (CIEDE2000) apart under the lamp.
struct PairRequest {
    PairKind kind = PairKind::same_colourant;
    double difference = 0;
    Finish finish = Finish::clear_coat;
};

/// Draws an original and finds its repair. Same colourants meet the difference to 0.01 wherever that much of
/// one colourant exists; others come as near as a dozen tries with three colourants each allow.
Pair draw_pair(const WoodKind& wood, const NodeWeights& wood_weights, const Lamp& lamp,
               const PairRequest& request, std::uint64_t seed, std::uint64_t attempt);

}  // namespace tonemend
