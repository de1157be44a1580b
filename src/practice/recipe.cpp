#include "practice/recipe.h"

#include "colour/kubelka_munk.h"

namespace tonemend {

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
