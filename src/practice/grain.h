#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace tonemend {

/// How a board's grain looks. Lengths in picture pixels; the grain runs along the picture's rows.
struct GrainStyle {
    double figure_share = 0;  ///< long-run share of the figure, pores not counted, 0..0.5; 0: a plain wood
    double pore_share = 0;    ///< long-run share of open pores, 0..0.1
    double along = 16;        ///< correlation length along the grain: e^(−1) after so many pixels
    double across = 1.6;      ///< and across it
    double streaks = 0;       ///< 0..1: how much of the figure follows streaks 25 × as long and 5 × as wide
    double mottle = 0.12;     ///< standard deviation of the darkness within ground and within figure, 0..0.15

    bool operator==(const GrainStyle&) const = default;
};

/// Darkness runs from −0.5 to 1.5, the ground about 0 and the figure about 1; colour is tabulated at these
/// nodes and interpolated linearly between them, in pictures and in their truth alike.
inline constexpr std::size_t darkness_nodes = 65;
constexpr double node_darkness(std::size_t node) {
    return -0.5 + static_cast<double>(node) / 32;
}

/// Darkness of each pixel of a board, row by row: a threshold through a stationary Gaussian field, so that
/// every pixel has exactly the distribution that long_run_weights describes, whatever region it is in.
std::vector<float> grow_grain(const GrainStyle& style, int width, int height, std::uint64_t seed);

/// One number a node: the mean of any colour over some wood is the sum of weight times the node's colour.
using NodeWeights = std::array<double, darkness_nodes>;

/// Weights of the wood itself, an endless board; they sum to 1.
struct LongRunWeights {
    NodeWeights all{};
    NodeWeights ground{};     ///< where figure and pores together are less than half: sums to 1
    NodeWeights figure{};     ///< the rest: sums to 1, or to 0 in a plain wood without pores
    double figure_share = 0;  ///< share of the rest, pores counted
};
LongRunWeights long_run_weights(const GrainStyle& style);

/// Adds one pixel to weights (not normalised): shares it between the two nodes beside its darkness.
inline void add_darkness(NodeWeights& weights, double darkness, double amount) {
    const double place = (darkness + 0.5) * 32;
    std::size_t node = static_cast<std::size_t>(place);
    if (node > darkness_nodes - 2) node = darkness_nodes - 2;
    const double rest = place - static_cast<double>(node);
    weights[node] += amount * (1 - rest);
    weights[node + 1] += amount * rest;
}

}  // namespace tonemend
