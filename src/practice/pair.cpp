#include "practice/pair.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "colour/difference.h"
#include "practice/random.h"

namespace tonemend {

namespace {

// The mean colour of a recipe on one wood under one lamp.
struct Bench {
    const WoodKind& wood;
    const NodeWeights& weights;
    const Lamp& lamp;

    Lab lab(const Recipe& recipe) const {
        XYZ sum;
        for (std::size_t node = 0; node < darkness_nodes; ++node) {
            if (weights[node] < 1e-9) continue;
            const XYZ xyz = lamp.xyz(stained_reflectance(wood, recipe, node_darkness(node)));
            sum.X += weights[node] * xyz.X;
            sum.Y += weights[node] * xyz.Y;
            sum.Z += weights[node] * xyz.Z;
        }
        return lamp.lab(sum);
    }
};

std::vector<const Colourant*> of_family(ColourantFamily family) {
    std::vector<const Colourant*> found;
    for (const Colourant& colourant : colourants())
        if (colourant.family == family) found.push_back(&colourant);
    return found;
}

const Colourant* take_one(std::vector<const Colourant*>& from, Random& random) {
    const auto place = from.begin() + random.below(static_cast<int>(from.size()));
    const Colourant* taken = *place;
    from.erase(place);
    return taken;
}

Recipe draw_original(Finish finish, Random& random) {
    constexpr std::array grits{120.0, 150.0, 180.0, 220.0};
    std::vector<const Colourant*> shelf = of_family(ColourantFamily::earth);
    Recipe recipe;
    recipe.finish = finish;
    const double grit = grits[static_cast<std::size_t>(random.below(4))];
    const int steps = 1 + random.below(2);
    for (int i = 0; i < steps; ++i) {
        const double strength = random.uniform();
        recipe.steps.push_back({take_one(shelf, random), 0.04 + 0.9 * strength * strength, {grit, 1, 1}});
    }
    return recipe;
}

// The amount of one step at which the mean has moved by `difference`; bisection on a function that rises from
// 0.
Recipe same_colourant(const Bench& bench, const Recipe& original, double difference, Random& random) {
    const Lab from = bench.lab(original);
    const std::size_t step = static_cast<std::size_t>(random.below(static_cast<int>(original.steps.size())));
    const double amount = original.steps[step].amount;
    Recipe repair = original;
    const auto moved = [&](double factor) {
        repair.steps[step].amount = amount * factor;
        return ciede2000(from, bench.lab(repair)).value;
    };
    double near = 1;
    double far = 0;
    if (random.uniform() < 0.5 || moved(0) < difference)
        for (far = 1.25; moved(far) < difference && amount * far < 2.5; far *= 1.6) near = far;
    for (int i = 0; i < 24; ++i) {
        const double middle = (near + far) / 2;
        const double reached = moved(middle);
        if (std::abs(reached - difference) < 0.004) break;
        (reached < difference ? near : far) = middle;
    }
    return repair;
}

// A colour `difference` from `from` in a direction drawn at random.
Lab draw_target(const Lab& from, double difference, Random& random) {
    const double up = random.uniform(-1, 1);
    const double angle = random.uniform(0, 2 * std::numbers::pi);
    const double out = std::sqrt(1 - up * up);
    const auto at = [&](double distance) {
        return Lab{from.L + distance * up, from.a + distance * out * std::cos(angle),
                   from.b + distance * out * std::sin(angle)};
    };
    double low = 0;
    double high = 4 * difference;
    for (int i = 0; i < 40; ++i) {
        const double middle = (low + high) / 2;
        (ciede2000(from, at(middle)).value < difference ? low : high) = middle;
    }
    return at(low);
}

// Damped Gauss–Newton on three amounts, held at 0 and above.
void mix_towards(const Bench& bench, Recipe& recipe, const Lab& target) {
    const auto miss = [&] {
        const Lab now = bench.lab(recipe);
        return Vector3{target.L - now.L, target.a - now.a, target.b - now.b};
    };
    for (int iteration = 0; iteration < 12; ++iteration) {
        const Vector3 now = miss();
        if (std::hypot(now[0], now[1], now[2]) < 0.01) return;
        Matrix3 jacobian;
        for (std::size_t k = 0; k < 3; ++k) {
            const double amount = recipe.steps[k].amount;
            recipe.steps[k].amount = amount + 1e-4;
            const Vector3 there = miss();
            recipe.steps[k].amount = amount;
            for (std::size_t row = 0; row < 3; ++row) jacobian.m[row][k] = (now[row] - there[row]) / 1e-4;
        }
        Matrix3 normal = transpose(jacobian) * jacobian;
        for (std::size_t k = 0; k < 3; ++k) normal.m[k][k] += 0.5;
        const Vector3 step = inverse(normal) * (transpose(jacobian) * now);
        for (std::size_t k = 0; k < 3; ++k)
            recipe.steps[k].amount =
                std::clamp(recipe.steps[k].amount + std::clamp(step[k], -0.4, 0.4), 0.0, 6.0);
    }
}

Recipe other_colourants(const Bench& bench, const Recipe& original, const PairRequest& request,
                        Random& random) {
    const Lab from = bench.lab(original);
    Recipe best;
    double best_miss = 1e9;
    for (int attempt = 0; attempt < 12; ++attempt) {
        std::vector<const Colourant*> earths = of_family(ColourantFamily::earth);
        std::erase_if(earths, [&](const Colourant* colourant) {
            return std::any_of(original.steps.begin(), original.steps.end(),
                               [&](const RecipeStep& step) { return step.colourant == colourant; });
        });
        std::vector<const Colourant*> others = of_family(ColourantFamily::other);
        Recipe repair = original;
        repair.steps.clear();
        for (int i = 0; i < 3; ++i) {
            const bool earth = request.kind == PairKind::earth || i == 0;
            repair.steps.push_back(
                {take_one(earth ? earths : others, random), 0.2, original.steps[0].application});
        }
        mix_towards(bench, repair, draw_target(from, request.difference, random));
        const double miss = std::abs(ciede2000(from, bench.lab(repair)).value - request.difference);
        if (miss < best_miss) {
            best = repair;
            best_miss = miss;
        }
        if (miss < 0.1) break;
    }
    return best;
}

}  // namespace

NodeXyz tabulate_xyz(const WoodKind& wood, const Recipe& recipe, const Lamp& lamp) {
    NodeXyz nodes{};
    for (std::size_t node = 0; node < darkness_nodes; ++node)
        nodes[node] = lamp.xyz(stained_reflectance(wood, recipe, node_darkness(node)));
    return nodes;
}

XYZ mean_xyz(const NodeXyz& nodes, const NodeWeights& weights) {
    XYZ sum;
    for (std::size_t node = 0; node < darkness_nodes; ++node) {
        sum.X += weights[node] * nodes[node].X;
        sum.Y += weights[node] * nodes[node].Y;
        sum.Z += weights[node] * nodes[node].Z;
    }
    return sum;
}

Pair draw_pair(const WoodKind& wood, const NodeWeights& wood_weights, const Lamp& lamp,
               const PairRequest& request, std::uint64_t seed, std::uint64_t attempt) {
    const Bench bench{wood, wood_weights, lamp};
    Random random(seed, "pair", attempt);
    Pair pair;
    pair.original = draw_original(request.finish, random);
    pair.repair = request.kind == PairKind::same_colourant
                      ? same_colourant(bench, pair.original, request.difference, random)
                      : other_colourants(bench, pair.original, request, random);
    return pair;
}

}  // namespace tonemend
