#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "colour/matrix3.h"
#include "colour/xyz.h"

namespace tonemend {

/// From XYZ (D50) to the codes of one display, as its profile has it: a matrix to the display's own linear light, a curve a channel
/// over the cube root of that light, made from the profile's greys, and a table over the three results, read by tetrahedra. For a
/// display of three curves and a matrix the table does next to nothing; it carries what a profile of lookup tables adds. Light
/// beyond the display's range is cut channel by channel. Twin of shaders/display_table.glsl.
struct DisplayTable {
    static constexpr std::size_t shaper_entries = 2048;

    Matrix3 from_xyz;  ///< XYZ above the display's black → its linear light, 1 for its white
    XYZ black;         ///< of the display's darkest code
    std::vector<float> shaper;  ///< `shaper_entries` × 3: cube root of linear light 0..1 → code 0..1, one a channel
    std::size_t side = 0;       ///< nodes a side
    std::vector<float> nodes;   ///< side³ × 3, red fastest: codes in, codes 0..1 out

    /// Codes R, G, B, 0..1.
    std::array<double, 3> encode(const XYZ& colour) const;
};

}  // namespace tonemend
