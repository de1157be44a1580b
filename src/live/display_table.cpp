#include "live/display_table.h"

#include <algorithm>
#include <cmath>

#include "colour/lab.h"

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

using Shares = std::array<double, 3>;
using Strides = std::array<std::size_t, 3>;

void add(std::array<double, 3>& sum, double weight, const float* node) {
    for (std::size_t c = 0; c < 3; ++c) sum[c] += weight * static_cast<double>(node[c]);
}

std::array<double, 3> by_tetrahedron(const float* node, const Shares& share, const Strides& stride) {
    // Along the diagonal from the low corner: along the largest share first, the smallest last.
    std::array<std::size_t, 3> order{0, 1, 2};
    std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) { return share[a] > share[b]; });
    std::array<double, 3> sum{};
    double left = 1;
    for (const std::size_t axis : order) {
        add(sum, left - share[axis], node);
        left = share[axis];
        node += stride[axis];
    }
    add(sum, left, node);
    return sum;
}

std::array<double, 3> by_cube(const float* node, const Shares& share, const Strides& stride) {
    std::array<double, 3> sum{};
    for (std::size_t corner = 0; corner < 8; ++corner) {
        double weight = 1;
        std::size_t at = 0;
        for (std::size_t axis = 0; axis < 3; ++axis) {
            const bool far = corner >> axis & 1;
            weight *= far ? share[axis] : 1 - share[axis];
            if (far) at += stride[axis];
        }
        add(sum, weight, node + at);
    }
    return sum;
}

}  // namespace

Vector3 DisplayTable::address_of(const XYZ& colour) const {
    if (address == DisplayAddress::lab) {
        const Lab lab = to_lab(colour, d50_icc);
        return {(lab.L + lab_offset[0]) * lab_scale[0], (lab.a + lab_offset[1]) * lab_scale[1],
                (lab.b + lab_offset[2]) * lab_scale[2]};
    }
    Vector3 linear = from_xyz * Vector3{colour.X - black.X, colour.Y - black.Y, colour.Z - black.Z};
    for (double& value : linear) value = std::sqrt(std::sqrt(std::max(value, 0.0)));
    return linear;
}

std::array<double, 3> DisplayTable::encode(const XYZ& colour) const {
    const Vector3 at = address_of(colour);
    const Strides stride{3, 3 * side, 3 * side * side};
    Shares share{};
    const float* node = nodes.data();
    for (std::size_t c = 0; c < 3; ++c) {
        const Place entry = place_of(at[c], shaper_entries);
        const double below = static_cast<double>(shaper[3 * entry.low + c]);
        const double above = static_cast<double>(shaper[3 * (entry.low + 1) + c]);
        const Place place = place_of(below + entry.share * (above - below), side);
        node += place.low * stride[c];
        share[c] = place.share;
    }
    return address == DisplayAddress::lab ? by_cube(node, share, stride)
                                          : by_tetrahedron(node, share, stride);
}

}  // namespace tonemend
