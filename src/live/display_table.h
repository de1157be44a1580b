#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "colour/matrix3.h"
#include "colour/xyz.h"

namespace tonemend {

/// What a display's table is addressed by.
enum class DisplayAddress {
    linear_root,  ///< the fourth root of the display's own linear light, for profiles of curves and a matrix
    lab           ///< CIELAB as profiles of lookup tables encode it, whose nodes this table's then fall upon
};

/// From XYZ (D50) to the codes of one display, as its profile has it: three numbers 0..1 that address the
/// table, a curve for each of them, and a table over the three results. For a display of curves and a matrix
/// the curves hold the display's and the table, read by tetrahedra, does next to nothing; for one of lookup
/// tables the curves and the lattice are those of the profile, read along all eight corners as Little CMS
/// reads tables over CIELAB. Light beyond the display's range is cut channel by channel. Twin of
/// shaders/display_table.glsl.
struct DisplayTable {
    static constexpr std::size_t shaper_entries = 2048;

    DisplayAddress address = DisplayAddress::linear_root;
    Matrix3 from_xyz;  ///< linear_root: XYZ above the display's black → its linear light, 1 for its white
    XYZ black;         ///< linear_root: of the display's darkest code
    Vector3 lab_scale{}, lab_offset{};  ///< lab: address = (lab + offset) × scale
    std::vector<float> shaper;          ///< `shaper_entries` × 3: address 0..1 → place in the table 0..1
    std::size_t side = 0;               ///< nodes a side
    std::vector<float> nodes;           ///< side³ × 3, first place fastest: codes R, G, B, 0..1

    /// The three numbers, not yet held to 0..1.
    Vector3 address_of(const XYZ& colour) const;
    /// Codes R, G, B, 0..1.
    std::array<double, 3> encode(const XYZ& colour) const;
};

}  // namespace tonemend
