#pragma once

#include "live/bench.h"
#include "live/painter.h"

namespace tonemend {

/// The readings of the job from left to right in time: each a chip with original and repair edge to edge, its
/// ΔE2000 and when it was taken; over them a line through their ΔE2000 against the tolerance. While the
/// repair is watched drying, a chip with a clock stands after the last.
void draw_coats(Painter& painter, const Box& box, Bench& bench);

}  // namespace tonemend
