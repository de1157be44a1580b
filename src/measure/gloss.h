#pragma once

#include <vector>

#include "measure/comparison.h"
#include "measure/gloss_split.h"
#include "measure/lamp_positions.h"
#include "measure/sheen_verdict.h"

namespace tonemend {

/// What pictures with the lamp in several places say of two regions.
struct GlossResult {
    Comparison with_gloss;     ///< picture one as it is
    Comparison without_gloss;  ///< the pictures' mean, its gloss taken off
    GlossSplit original, repair;
    /// ΔE2000 between the region's mean and a place as much lighter as it shimmers (standard deviation).
    double original_shimmer_de2000 = 0, repair_shimmer_de2000 = 0;
    SheenMatch sheen;
    FigureVerdict figure = FigureVerdict::undecided;
    double shift_px = 0;  ///< the worst that registration leaves
};

/// Compares `original` and `repair`, regions of the first picture, without what the finish mirrors. What
/// every picture mirrors at one place stays: no picture shows the wood without it. The interval is that of a
/// comparison, with the light's uncertainty shared among the pictures and the gloss's own uncertainty added.
/// Throws InputError: see require_lamp_positions, lay_over, collect_pixels.
GlossResult measure_gloss(const std::vector<LampPosition>& positions, const Region& original,
                          const Region& repair, double tolerance = default_tolerance);

}  // namespace tonemend
