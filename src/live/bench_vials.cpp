#include "live/bench_vials.h"

#include <algorithm>

namespace tonemend {
namespace {

Comparison between(const Comparison& comparison, const Lab& original, const Lab& repair) {
    Comparison part = comparison;
    part.original.lab = original;
    part.repair.lab = repair;
    part.difference.dL = repair.L - original.L;
    part.difference.da = repair.a - original.a;
    part.difference.db = repair.b - original.b;
    return part;
}

// Positions only shrink: the new scale is never finer.
void bring_to(Vial& vial, double scale) {
    const double factor = vial.scale / scale;
    vial.bubble *= factor;
    vial.bubble_half_width *= factor;
    vial.line *= factor;
    vial.scale = scale;
}

}  // namespace

std::array<BenchVial, 3> draw_bench_vials(const Comparison& comparison) {
    std::array<BenchVial, 3> vials;
    const auto whole = draw_vials(comparison);
    double scale = whole[0].scale;
    for (std::size_t k = 0; k < 3; ++k) vials[k].whole = whole[k];
    if (comparison.both_figured()) {
        const auto ground =
            draw_vials(between(comparison, comparison.original.ground, comparison.repair.ground));
        const auto figure =
            draw_vials(between(comparison, comparison.original.figure, comparison.repair.figure));
        scale = std::max({scale, ground[0].scale, figure[0].scale});
        for (std::size_t k = 0; k < 3; ++k) vials[k].ground = ground[k], vials[k].figure = figure[k];
    }
    for (BenchVial& vial : vials) {
        bring_to(vial.whole, scale);
        if (vial.ground) bring_to(*vial.ground, scale);
        if (vial.figure) bring_to(*vial.figure, scale);
    }
    return vials;
}

}  // namespace tonemend
