#include "practice/mean_reflectance.h"

namespace tonemend {

Bands mean_reflectance(const WoodKind& wood, const Recipe& recipe, const NodeWeights& weights) {
    Bands mean{};
    for (std::size_t node = 0; node < darkness_nodes; ++node) {
        if (weights[node] < 1e-9) continue;
        const Bands here = stained_reflectance(wood, recipe, node_darkness(node));
        for (std::size_t i = 0; i < band_count; ++i) mean[i] += weights[node] * here[i];
    }
    return mean;
}

}  // namespace tonemend
