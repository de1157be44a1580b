#include "advise/model/lab_table.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace tonemend {
namespace {

constexpr double spacing = 2, end = 400;

}  // namespace

const Lab& LabTable::node(int l, int a, int b) const {
    assert(std::abs(a) < 256 && std::abs(b) < 256 && std::abs(l) < 256);
    const int key = (l * 512 + a + 256) * 512 + b + 256;
    const auto found = nodes_.find(key);
    if (found != nodes_.end()) return found->second;
    const Lab place{spacing * std::max(l, 0), spacing * a, spacing * b};
    return nodes_.emplace(key, function_(place)).first->second;
}

Lab LabTable::operator()(const Lab& bare) const {
    // What is no number, or lies beyond all colours, is asked for at the lattice's end.
    const auto held = [](double value) { return value > -end ? std::min(value, end) : -end; };
    const std::array<double, 3> place{held(bare.L) / spacing, held(bare.a) / spacing, held(bare.b) / spacing};
    std::array<int, 3> low{};
    std::array<double, 3> rest{};
    for (std::size_t i = 0; i < 3; ++i) {
        low[i] = static_cast<int>(std::floor(place[i]));
        rest[i] = place[i] - low[i];
    }
    Lab sum{0, 0, 0};
    for (int corner = 0; corner < 8; ++corner) {
        double weight = 1;
        std::array<int, 3> at = low;
        for (std::size_t i = 0; i < 3; ++i) {
            const bool high = (corner >> i & 1) != 0;
            weight *= high ? rest[i] : 1 - rest[i];
            at[i] += high ? 1 : 0;
        }
        if (weight == 0) continue;
        const Lab& value = node(at[0], at[1], at[2]);
        sum.L += weight * value.L, sum.a += weight * value.a, sum.b += weight * value.b;
    }
    return sum;
}

}  // namespace tonemend
