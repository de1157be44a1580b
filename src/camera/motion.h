#pragma once

#include "picture/frame.h"

namespace tonemend {

/// What happened between two frames beyond their noise.
enum class Motion {
    none,
    part,   ///< something in the picture: a hand, a moved card
    whole,  ///< all of it: the camera was moved, or the light changed
};

/// Compares two 8-bit frames of one size by the green channel of every second pixel of every second row, in
/// cells of 8 × 8 pixels. Noise is independent from pixel to pixel, so a cell's mean difference stays near
/// its pixels' spread over the root of their number; what moves or lights up changes neighbours alike and
/// does not. The frames' own noise is thus the measure and nothing has to be learnt. A cell counts as changed
/// beyond six such standard deviations and one code; 12 of them make a moved part. Correlated noise as JPEG
/// makes it is allowed for by a factor of two. About 1 ms at 1920 × 1080.
Motion find_motion(const Frame& before, const Frame& now);

}  // namespace tonemend
