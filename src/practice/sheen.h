#pragma once

#include <vector>

#include "practice/scene.h"

namespace tonemend {

/// What one half of the board does with a lamp that stands to one side (PracticeOptions::lamp_from): values
/// of its pixels, row by row. Empty: nothing.
///
/// The finish is wavy: places are tilted by 15° (standard deviation) in the lamp's azimuth and mirror within
/// 25° of it, so gloss is side.gloss on average with the lamp at 0°, 0.59 of it at 30°, 0.01 at 90°, and what
/// shines moves about the surface. Figured wood's fibres lean every way: with the lamp in one place their
/// light differs from the mean by side.shimmer (standard deviation), in two places an angle A apart from each
/// other by side.shimmer times 2 sin(A/2). No source: chosen to behave as such surfaces do.
struct Sheen {
    std::vector<float> gloss;    ///< share of the lamp's light that is mirrored into the camera
    std::vector<float> shimmer;  ///< what the wood's own light is multiplied by
};

/// Without lamp_from: empty.
Sheen grow_sheen(const PracticeScene& scene, const BoardSide& side);

}  // namespace tonemend
