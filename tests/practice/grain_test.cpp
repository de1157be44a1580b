#include "practice/grain.h"

#include <cmath>
#include <numeric>

#include "practice/grain_field.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

namespace {

double mean_darkness(const NodeWeights& weights) {
    double sum = 0;
    for (std::size_t node = 0; node < darkness_nodes; ++node) sum += weights[node] * node_darkness(node);
    return sum;
}

double mean_of(const std::vector<float>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

}  // namespace

TEST_CASE("The grain's field has variance 1 and the correlation lengths that it is asked for") {
    constexpr int size = 1500;
    const std::vector<float> field = gaussian_field(size, size, 12, 2, 5, "test");
    double square = 0, beside = 0, below = 0;
    for (std::size_t y = 0; y + 1 < size; ++y)
        for (std::size_t x = 0; x + 12 < size; ++x) {
            const double here = static_cast<double>(field[y * size + x]);
            square += here * here;
            beside += here * static_cast<double>(field[y * size + x + 12]);
            below += here * static_cast<double>(field[(y + 1) * size + x]);
        }
    const double count = (size - 1.0) * (size - 12.0);
    // Some 47 000 independent patches (area over the field's 4 · 12 · 2 · ½): four standard errors are 0.03.
    CHECK(square / count == Approx(1).margin(0.03));
    CHECK(beside / count == Approx(std::exp(-1.0)).margin(0.03));
    CHECK(below / count == Approx(std::exp(-0.5)).margin(0.03));
}

TEST_CASE("Long-run weights sum to 1 and split into ground and figure by its share") {
    for (const GrainStyle& style :
         {GrainStyle{}, GrainStyle{0.3, 0.03, 16, 1.6, 0, 0.12}, GrainStyle{0.5, 0.1, 9, 3, 0.5, 0.1}}) {
        const LongRunWeights weights = long_run_weights(style);
        const auto sum = [](const NodeWeights& w) { return std::accumulate(w.begin(), w.end(), 0.0); };
        CHECK(sum(weights.all) == Approx(1).epsilon(1e-10));
        CHECK(sum(weights.ground) == Approx(1).epsilon(1e-10));
        CHECK(sum(weights.figure) == Approx(weights.figure_share > 0 ? 1 : 0).margin(1e-10));
    }
    CHECK(long_run_weights(GrainStyle{}).figure_share == 0);
    // Without pores the share is the style's own: a threshold at a normal quantile.
    CHECK(long_run_weights({0.3, 0, 16, 1.6, 0, 0.12}).figure_share == Approx(0.3).margin(0.005));
}

TEST_CASE("Over many boards the mean darkness is the long-run mean, with no bias") {
    for (const GrainStyle& style : {GrainStyle{0.3, 0.03, 10, 1.5, 0, 0.12},
                                    GrainStyle{0.2, 0, 6, 2, 0.4, 0.1}, GrainStyle{0, 0, 10, 1.5, 0, 0.12}}) {
        const double expected = mean_darkness(long_run_weights(style).all);
        std::vector<double> misses;
        for (std::uint64_t seed = 1; seed <= 60; ++seed)
            misses.push_back(mean_of(grow_grain(style, 400, 300, seed)) - expected);
        double mean = 0, square = 0;
        for (const double miss : misses) mean += miss / 60;
        for (const double miss : misses) square += (miss - mean) * (miss - mean) / 59;
        const double standard_error = std::sqrt(square / 60);
        std::printf("  long-run mean %.4f, boards off by %.5f on average, standard error %.5f\n", expected,
                    mean, standard_error);
        CHECK(std::abs(mean) < 3.3 * standard_error);
        CHECK(standard_error < 0.01);
    }
}

TEST_CASE("The grain of a board does not depend on where it is looked at") {
    const GrainStyle style{0.3, 0.03, 16, 1.6, 0, 0.12};
    const std::vector<float> board = grow_grain(style, 600, 400, 11);
    const std::vector<float> fewer_rows = grow_grain(style, 600, 100, 11);
    CHECK(std::equal(fewer_rows.begin(), fewer_rows.end(), board.begin()));
    // Each column and each row, the first included, is as dark as the rest: nothing fades in at the edges.
    double first_row = 0;
    constexpr int boards = 200;
    for (std::uint64_t seed = 0; seed < boards; ++seed) {
        const std::vector<float> strip = grow_grain(style, 300, 1, seed);
        first_row += mean_of(strip) / boards;
    }
    CHECK(first_row == Approx(mean_darkness(long_run_weights(style).all)).margin(0.03));
}
