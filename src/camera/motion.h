#pragma once

#include <vector>

#include "picture/frame.h"

namespace tonemend {

/// What happened between two frames beyond their noise.
enum class Motion {
    none,
    moved,          ///< a hand, the card, the camera
    light_changed,  ///< all of the picture is lighter or darker, or whole rows of it
};

/// A frame reduced to see motion in: the mean code of each cell of 16 × 16 pixels, R, G and B alike, of every
/// second row.
struct MotionGrid {
    int columns = 0;
    int rows = 0;
    std::vector<float> codes;  ///< rows × columns
};

/// For 8-bit frames. About a millisecond at 1920 × 1080.
MotionGrid reduce_for_motion(const Frame& frame);

/// Compares two grids of one size. The noise is taken from the two themselves: the median of the cells'
/// differences, which neither a hand in part of the picture nor the edges that a knock makes jump can move.
/// Six cells that differ by seven standard deviations of that and by 2.5 codes (JPEG's coarsest steps) are
/// motion, and so are two blocks of 4 × 4 cells whose means differ by seven standard deviations and by 0.6
/// codes: a coat that changes a part of the picture by about 0.3 in lightness. A mean difference of 0.3 codes
/// over all cells is a change of the light, and so are jumps that are gone once each row of cells is scaled
/// by the median of its own ratios: light scales what is light and dark alike, and a shutter that rolls over
/// a lamp that beats with the mains gives each row a light of its own. Too small a move to make that many
/// cells differ is too small to blur more than the noise hides.
Motion find_motion(const MotionGrid& before, const MotionGrid& now);

}  // namespace tonemend
