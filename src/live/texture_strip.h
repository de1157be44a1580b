#pragma once

#include "live/bench_state.h"

namespace tonemend {

/// Cuts a strip of the same size, at most 640 × 96 camera pixels, out of the middle of each region,
/// calibrated: white is white and the two may be compared by eye, at equal scale. Strips stay within their
/// regions' bounds.
void cut_strips(const Frame& frame, const Calibration& calibration, const Reading& original,
                const Reading& repair, TextureStrip& original_strip, TextureStrip& repair_strip);

}  // namespace tonemend
