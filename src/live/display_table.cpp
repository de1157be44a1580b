#include "live/display_table.h"

#include <algorithm>
#include <cmath>

namespace tonemend {
namespace {

struct Place {
    std::size_t low = 0;
    double share = 0;
};

Place place_of(double t, std::size_t count) {
    const double at = std::clamp(t, 0.0, 1.0) * static_cast<double>(count - 1);
    const std::size_t low = std::min(static_cast<std::size_t>(at), count - 2);
    return {low, at - static_cast<double>(low)};
}

}  // namespace

std::array<double, 3> DisplayTable::encode(const XYZ& colour) const {
    const Vector3 linear = from_xyz * Vector3{colour.X - black.X, colour.Y - black.Y, colour.Z - black.Z};
    const std::array<std::size_t, 3> stride{3, 3 * side, 3 * side * side};
    std::array<double, 3> share{};
    std::size_t node = 0;
    for (std::size_t c = 0; c < 3; ++c) {
        const Place root = place_of(std::cbrt(std::max(linear[c], 0.0)), shaper_entries);
        const double below = static_cast<double>(shaper[3 * root.low + c]);
        const double above = static_cast<double>(shaper[3 * (root.low + 1) + c]);
        const Place code = place_of(below + root.share * (above - below), side);
        node += code.low * stride[c];
        share[c] = code.share;
    }
    // Tetrahedra along the grey diagonal: from black's corner along the largest share first, the smallest last.
    std::array<std::size_t, 3> order{0, 1, 2};
    std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) { return share[a] > share[b]; });
    const std::array<double, 4> weight{1 - share[order[0]], share[order[0]] - share[order[1]],
                                       share[order[1]] - share[order[2]], share[order[2]]};
    std::array<double, 3> code{};
    for (std::size_t corner = 0; corner < 4; ++corner) {
        for (std::size_t c = 0; c < 3; ++c) code[c] += weight[corner] * static_cast<double>(nodes[node + c]);
        if (corner < 3) node += stride[order[corner]];
    }
    return code;
}

}  // namespace tonemend
