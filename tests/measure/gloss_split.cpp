// Gloss against uneven light on squares that are made by hand: what is added is known exactly. No outside
// source.
#include "measure/gloss_split.h"

#include <algorithm>
#include <cmath>
#include <functional>

#include "measure/normal_draws.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

constexpr Vector3 brown{0.35, 0.20, 0.10};
constexpr UnevenLight well_lit{0.004, 0.002};

struct Made {
    int side = 20;  // squares
    std::size_t pictures = 2;
    Vector3 wood = brown;
    double noise = 0;  // of each channel of a square
    // Light of a picture: times, plus neutral.
    std::function<double(std::size_t picture, int column, int row)> times = [](auto...) { return 1.0; };
    std::function<double(std::size_t picture, int column, int row)> gloss = [](auto...) { return 0.0; };

    GlossCells cells() const {
        NormalDraws normal(7);
        GlossCells grid;
        grid.side = 8, grid.columns = grid.rows = side;
        for (int row = 0; row < side; ++row)
            for (int column = 0; column < side; ++column) {
                GlossCell& cell = grid.cells.emplace_back();
                cell.pixels = 64;
                cell.there.assign(pictures, 1);
                for (std::size_t p = 0; p < pictures; ++p) {
                    Vector3& light = cell.light.emplace_back();
                    for (std::size_t c = 0; c < 3; ++c)
                        light[c] = wood[c] * times(p, column, row) + gloss(p, column, row) + noise * normal();
                }
            }
        const double n = static_cast<double>(pictures), variance = noise * noise * (1 - 1 / n);
        grid.noise = Matrix3::diagonal(variance, variance, variance);
        return grid;
    }
    GlossSplit split(const UnevenLight& uneven = well_lit) const { return split_gloss(cells(), uneven); }
};

}  // namespace

TEST_CASE("A veil in one picture is that picture's gloss, and the mean of the pictures must lose its share") {
    Made made;
    made.gloss = [](std::size_t p, int, int) { return p == 0 ? 0.02 : 0.0; };
    made.noise = 0.0003;
    const GlossSplit split = made.split();
    CHECK(split.gloss == Approx(0.02).margin(0.0006));
    CHECK(split.by_picture[0] == Approx(0.02).margin(0.0006));
    CHECK(split.by_picture[1] == Approx(0).margin(0.0002));
    CHECK(split.veil == Approx(0.01).margin(0.0003));
    CHECK(split.gloss_u < 0.0015);
}

TEST_CASE("Where the lamp is mirrored here in one picture and there in the other, each place loses its own") {
    Made made;
    made.pictures = 3;
    made.noise = 0.0002;
    made.gloss = [](std::size_t p, int column, int) {
        return column / 7 == static_cast<int>(p) ? 0.03 : 0.002;
    };
    const GlossSplit split = made.split();
    // Columns 0–6, 7–13 and 14–19: the most is 0.028 over the least everywhere.
    CHECK(split.gloss == Approx(0.028).margin(0.001));
    CHECK(split.by_picture[0] == Approx(0.028 * 7 / 20).margin(0.001));
    CHECK(split.by_picture[2] == Approx(0.028 * 6 / 20).margin(0.001));
}

TEST_CASE("Light that is brighter in one picture multiplies and is not taken for gloss") {
    Made made;
    made.times = [](std::size_t p, int column, int) { return p == 0 ? 1.0 : 1.05 + 0.002 * column; };
    made.noise = 0.0003;
    const GlossSplit split = made.split({0.05, 0.002});
    CHECK(split.gloss < 0.0008);
    CHECK(split.gloss < 3 * split.gloss_u);
}

TEST_CASE("On grey wood brightness alone tells, and the uncertainty says how far the light is known") {
    Made made;
    made.wood = {0.3, 0.3, 0.3};
    made.gloss = [](std::size_t p, int, int) { return p == 0 ? 0.02 : 0.0; };
    const GlossSplit known = made.split({0.003, 0.001}), unknown = made.split({0.05, 0.001});
    CHECK(known.gloss == Approx(0.02).margin(0.001));
    CHECK(known.gloss_u < 0.0015);
    CHECK(unknown.gloss_u > 0.01);
    made.wood = brown;
    CHECK(made.split({0.05, 0.001}).gloss_u < 0.15 * unknown.gloss_u);
}

TEST_CASE(
    "Noise does not pass for gloss, as it would if the least of the pictures were taken at each place") {
    Made made;
    made.noise = 0.002;
    const GlossCells cells = made.cells();
    double naive = 0;
    for (const GlossCell& cell : cells.cells)
        naive += std::abs(cell.light[0][1] - cell.light[1][1]) / static_cast<double>(cells.cells.size());
    const GlossSplit split = split_gloss(cells, well_lit);
    CHECK(naive > 0.002);  // 2σ/√π of a difference of two normals
    CHECK(split.gloss < 0.0006);
}

TEST_CASE("A square that one picture lost to clipping is told from the others") {
    Made made;
    made.pictures = 3;
    made.gloss = [](std::size_t p, int, int) { return p == 1 ? 0.02 : 0.0; };
    GlossCells cells = made.cells();
    for (std::size_t k = 0; k < cells.cells.size(); k += 2) {
        cells.cells[k].there[0] = 0;
        cells.cells[k].light[0] = {1, 1, 1};
    }
    const GlossSplit split = split_gloss(cells, well_lit);
    CHECK(split.gloss == Approx(0.02).margin(0.0006));
    CHECK(split.by_picture[1] == Approx(0.02).margin(0.0006));
}

TEST_CASE(
    "Shimmer is what the lamp changes from place to place, gloss, mean and slope of the light taken off") {
    NormalDraws normal(3);
    std::vector<double> lean(400);
    for (double& value : lean) value = normal();
    Made made;
    made.noise = 0.0003;
    made.gloss = [](std::size_t p, int column, int) { return p == 0 ? 0.001 * column : 0.0; };
    const auto tilted = [](std::size_t p, int column) { return p == 0 ? 1 : 1.03 + 0.002 * column; };
    made.times = [&](std::size_t p, int column, int) { return tilted(p, column); };
    const GlossSplit still = made.split({0.03, 0.002});
    CHECK(still.shimmer < 0.004);
    CHECK(still.shimmer - still.shimmer_u95 <= 0.001);
    made.times = [&](std::size_t p, int column, int row) {
        return tilted(p, column) *
               (1 + (p == 0 ? 0.03 : -0.03) * lean[static_cast<std::size_t>(20 * row + column)]);
    };
    const GlossSplit figured = made.split({0.03, 0.002});
    // 0.06 between two pictures, as if each by itself strayed by 0.06/√2.
    CHECK(figured.shimmer == Approx(0.03 * std::sqrt(2.0)).margin(0.004));
    CHECK(figured.shimmer_u95 < 0.01);
    CHECK(figured.gloss == Approx(0.001 * 9.5).margin(0.001));
}
