#include "practice/finished_wood.h"

#include <cmath>

#include "practice/mean_reflectance.h"
#include "practice/random.h"

namespace tonemend {

FinishedBoards draw_finished_boards(const FinishCan& can, int count, std::uint64_t seed) {
    Random random(seed, "finish");
    const auto& woods = wood_kinds();
    const WoodKind& wood = woods[static_cast<std::size_t>(random.below(static_cast<int>(woods.size())))];
    GrainStyle grain;
    grain.figure_share = wood.figure_share;
    const NodeWeights weights = long_run_weights(grain).all;
    SurfaceFill film;
    film.index = random.uniform(can.least_index, can.most_index);
    film.filled = 1, film.covered = 1;
    film.scattering_lost = random.uniform(can.least_scattering_lost, can.most_scattering_lost);
    film.amber = can.amber * std::exp(0.35 * random.normal());
    film.amber_decay = random.uniform(50, 75);
    film.haze = can.haze * random.uniform(0.6, 1.4);
    const std::vector<const Colourant*> shelf = earth_shelf();
    FinishedBoards boards;
    for (int i = 0; i < count; ++i) {
        Recipe recipe;
        recipe.finish = Finish::raw;
        if (i % 3 != 0)
            recipe.steps.push_back(
                {shelf[static_cast<std::size_t>(random.below(static_cast<int>(shelf.size())))],
                 random.uniform(0.05, 0.9),
                 {180, 1, 1}});
        const Bands body = mean_reflectance(wood, recipe, weights);
        SurfaceFill rubbed;
        rubbed.covered = random.uniform(0, 0.06);
        SurfaceFill coat = film;
        coat.amber *= std::exp(0.1 * random.normal());
        coat.scattering_lost *= std::exp(0.15 * random.normal());
        coat.haze *= std::exp(0.15 * random.normal());
        boards.bare.push_back(surface_reflectance(body, rubbed));
        boards.finished.push_back(surface_reflectance(body, coat));
    }
    return boards;
}

}  // namespace tonemend
