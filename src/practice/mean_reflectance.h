#pragma once

#include "practice/grain.h"
#include "practice/recipe.h"

namespace tonemend {

/// Mean reflectance of the wood that the weights describe, after the recipe.
Bands mean_reflectance(const WoodKind& wood, const Recipe& recipe, const NodeWeights& weights);

}  // namespace tonemend
