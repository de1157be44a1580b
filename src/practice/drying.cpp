#include "practice/drying.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "colour/difference.h"
#include "practice/mean_reflectance.h"
#include "practice/random.h"

namespace tonemend {

namespace {

// F after `elapsed` time constants of dF/dt = −F^order, from F = 1.
double falling(double elapsed, double order) {
    if (order - 1 < 1e-6) return std::exp(-elapsed);
    return std::pow(1 + (order - 1) * elapsed, -1 / (order - 1));
}

}  // namespace

SurfaceFill DryingPatch::at(double minutes) const {
    const double turn = 2 * std::numbers::pi / gust_minutes;
    const double windy =
        std::max(0.0, minutes + gust * (std::sin(turn * minutes + gust_phase) - std::sin(gust_phase)) / turn);
    SurfaceFill left = wet;
    left.covered *= film_minutes > 0 ? std::clamp(1 - windy / film_minutes, 0.0, 1.0) : 0.0;
    const double elapsed = std::max(0.0, windy - film_minutes) / fibre_minutes;
    left.filled *=
        (1 - deep_share) * falling(elapsed, order) + deep_share * falling(elapsed / deep_slower, order);
    return left;
}

Lab DryingPatch::lab(const Lamp& lamp, double minutes) const {
    return lamp.lab(surface_reflectance(body, at(minutes)));
}

Lab DryingPatch::dry_lab(const Lamp& lamp) const {
    return lamp.lab(body);
}

double DryingPatch::settled_after(const Lamp& lamp, double de2000) const {
    const Lab end = dry_lab(lamp);
    // A gust never turns drying round, so the way to the end grows shorter all the time but for what film and
    // fibres do against each other early on.
    double low = 0, high = film_minutes + fibre_minutes;
    const auto away = [&](double minutes) { return ciede2000(lab(lamp, minutes), end).value > de2000; };
    while (away(high)) low = high, high *= 2;
    while (high - low > 1e-3 * high) {
        const double middle = (low + high) / 2;
        (away(middle) ? low : high) = middle;
    }
    return high;
}

DryingPatch draw_drying(double typical_minutes, const DryingShop& shop, std::uint64_t seed) {
    Random random(seed, "drying");
    const auto& woods = wood_kinds();
    const WoodKind& wood = woods[static_cast<std::size_t>(random.below(static_cast<int>(woods.size())))];
    const std::vector<const Colourant*> shelf = earth_shelf();
    Recipe recipe;
    recipe.finish = Finish::raw;
    recipe.steps.push_back({shelf[static_cast<std::size_t>(random.below(static_cast<int>(shelf.size())))],
                            random.uniform(0.05, 0.9),
                            {random.uniform(120, 220), 1, 1}});
    GrainStyle grain;
    grain.figure_share = wood.figure_share;
    DryingPatch patch;
    patch.body = mean_reflectance(wood, recipe, long_run_weights(grain).all);
    patch.wet.index = random.uniform(1.33, 1.48);
    patch.wet.filled = 1;
    patch.wet.covered = random.uniform(shop.least_covered, shop.most_covered);
    patch.wet.scattering_lost = random.uniform(0.2, 0.5);
    const double minutes = typical_minutes * std::exp(0.45 * random.normal());
    patch.film_minutes = minutes * random.uniform(shop.least_film, shop.most_film);
    patch.fibre_minutes = minutes * random.uniform(0.2, 0.35);
    patch.order = random.uniform(1, shop.most_order);
    patch.deep_share =
        random.uniform() < 0.5 ? 0 : random.uniform(shop.most_deep_share / 4, shop.most_deep_share);
    patch.deep_slower = random.uniform(2, 4);
    patch.gust = random.uniform(0, shop.most_gust);
    patch.gust_minutes = minutes * random.uniform(0.1, 1);
    patch.gust_phase = random.uniform(0, 2 * std::numbers::pi);
    return patch;
}

}  // namespace tonemend
