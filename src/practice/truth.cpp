#include "practice/truth.h"

#include "colour/difference.h"

namespace tonemend {

namespace {

NodeWeights region_weights(const PracticeScene& scene, const std::vector<float>& darkness,
                           const PixelRect& region) {
    NodeWeights weights{};
    const double each = 1 / (static_cast<double>(region.width) * region.height);
    for (int y = 0; y < region.height; ++y) {
        const float* row = darkness.data() +
                           static_cast<std::ptrdiff_t>(region.y - scene.board.y + y) * scene.board.width +
                           (region.x - scene.board.x);
        for (int x = 0; x < region.width; ++x) add_darkness(weights, static_cast<double>(row[x]), each);
    }
    return weights;
}

RegionTruth region_truth(const PracticeScene& scene, const BoardSide& side,
                         const std::vector<float>& darkness) {
    const auto lab = [&](const NodeWeights& weights) { return scene.lamp.lab(mean_xyz(side.xyz, weights)); };
    RegionTruth truth;
    truth.region = side.region;
    truth.lab = lab(region_weights(scene, darkness, side.region));
    truth.lab_wood = lab(scene.wood_weights.all);
    truth.ground = lab(scene.wood_weights.ground);
    truth.figure_share = scene.wood_weights.figure_share;
    if (truth.figure_share > 0) truth.figure = lab(scene.wood_weights.figure);
    return truth;
}

}  // namespace

Truth truth(const PracticeScene& scene) {
    const std::vector<float> darkness =
        grow_grain(scene.grain, scene.board.width, scene.board.height, scene.options.seed);
    Truth truth;
    truth.original = region_truth(scene, scene.original, darkness);
    truth.repair = region_truth(scene, scene.repair, darkness);
    truth.de2000 = ciede2000(truth.original.lab, truth.repair.lab).value;
    truth.de2000_wood = ciede2000(truth.original.lab_wood, truth.repair.lab_wood).value;
    return truth;
}

}  // namespace tonemend
