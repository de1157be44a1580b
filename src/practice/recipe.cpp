#include "practice/recipe.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "picture/input_error.h"
#include "picture/text_line.h"
#include "practice/options.h"

#include "colour/kubelka_munk.h"

namespace tonemend {

Recipe recipe_of(const PracticeSide& side) {
    Recipe recipe;
    recipe.finish = side.finish;
    for (const PracticeCoat& coat : side.coats) {
        if (!(coat.concentration > 0 && coat.concentration <= 1))
            throw InputError(fmt::format("'{}': its share in the mixture is {:g}; give over 0 to 1",
                                         one_line(coat.colourant, 60), coat.concentration));
        const Colourant* colourant = &find_colourant(coat.colourant);
        const auto earlier =
            std::count_if(recipe.steps.begin(), recipe.steps.end(),
                          [&](const RecipeStep& step) { return step.colourant == colourant; });
        // What a further coat adds, as `uptake` has it for coats with no reading between.
        const double next = colourant->kind == ColourantKind::pigment ? 0.5 : 0.65;
        recipe.steps.push_back(
            {colourant, coat.concentration * std::pow(next, static_cast<double>(earlier)), {180, 1, 1}});
    }
    return recipe;
}

Bands stained_reflectance(const WoodKind& wood, const Recipe& recipe, double darkness) {
    Bands absorption = wood_k_over_s(wood, darkness);
    for (const RecipeStep& step : recipe.steps) {
        if (step.colourant->kind != ColourantKind::dye) continue;
        const double taken = step.amount * uptake(wood, ColourantKind::dye, step.application, darkness);
        for (std::size_t i = 0; i < band_count; ++i) absorption[i] += taken * step.colourant->absorption[i];
    }
    Bands reflectance{};
    for (std::size_t i = 0; i < band_count; ++i) reflectance[i] = infinite_reflectance(absorption[i]);
    for (const RecipeStep& step : recipe.steps) {
        if (step.colourant->kind != ColourantKind::pigment) continue;
        const double taken = step.amount * uptake(wood, ColourantKind::pigment, step.application, darkness);
        for (std::size_t i = 0; i < band_count; ++i) {
            const KubelkaMunkLayer layer{taken * step.colourant->absorption[i],
                                         taken * step.colourant->scattering[i]};
            reflectance[i] = layer_reflectance(layer, reflectance[i]);
        }
    }
    return recipe.finish == Finish::clear_coat ? under_clear_coat(reflectance, recipe.coat) : reflectance;
}

}  // namespace tonemend
