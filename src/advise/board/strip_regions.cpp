#include "advise/board/strip_regions.h"

#include <cassert>

namespace tonemend {
namespace {

Point between(const Point& from, const Point& to, double share) {
    return {from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)};
}

}  // namespace

std::vector<Region> strip_regions(const Quad& board, std::size_t count) {
    assert(count > 0);
    constexpr double beside = 0.2, ends = 0.1;
    const auto at = [&](double across, double down) {
        return between(between(board[0], board[1], across), between(board[3], board[2], across), down);
    };
    std::vector<Region> regions;
    for (std::size_t i = 0; i < count; ++i) {
        const double left = (static_cast<double>(i) + beside) / static_cast<double>(count);
        const double right = (static_cast<double>(i) + 1 - beside) / static_cast<double>(count);
        regions.push_back({{at(left, ends), at(right, ends), at(right, 1 - ends), at(left, 1 - ends)}});
    }
    return regions;
}

}  // namespace tonemend
