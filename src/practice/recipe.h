#pragma once

#include <vector>

#include "practice/finish.h"
#include "practice/uptake.h"

namespace tonemend {

/// One step of staining.
struct RecipeStep {
    const Colourant* colourant = nullptr;  ///< one of colourants(); not owned
    double amount = 1;                     ///< strength of the mixture, 0 or more, times the uptake
    Application application;
};

/// How a patch of wood came to its colour: steps from the wood up, then the finish.
struct Recipe {
    std::vector<RecipeStep> steps;
    Finish finish = Finish::clear_coat;
    ClearCoat coat;
};

struct PracticeSide;
/// The recipe of a side that is told to be so. Throws InputError: no such colourant, a concentration out of
/// range.
Recipe recipe_of(const PracticeSide& side);

/// Reflectance of the wood at `darkness` after the recipe. Dyes add their absorption to the wood's, which is
/// thick; each pigment is then a layer over what lies below it; the finish comes last.
Bands stained_reflectance(const WoodKind& wood, const Recipe& recipe, double darkness);

}  // namespace tonemend
