#pragma once

#include <vector>

#include "measure/lamp_positions.h"

namespace tonemend {

/// Gloss over the whole of picture one, in squares.
struct GlossMap {
    int side = 1;  ///< of a square, picture pixels
    int columns = 0, rows = 0;
    std::vector<float> gloss;  ///< by rows; share of white, the most in any picture over the least; below 0:
                               ///< not known (grey, clipped in all pictures but one, outside the others)
    float at(int column, int row) const {
        return gloss[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
                     static_cast<std::size_t>(column)];
    }
};

/// For the eye: each square by itself, told by colour alone. About 160 squares across. Throws InputError: see
/// require_lamp_positions.
GlossMap map_gloss(const std::vector<LampPosition>& positions);

}  // namespace tonemend
