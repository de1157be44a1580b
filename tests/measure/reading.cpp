#include "measure/reading.h"

#include <cmath>

#include "colour/difference.h"
#include "measure/comparison.h"
#include "measure/normal_draws.h"
#include "picture/input_error.h"
#include "tests/catch.h"
#include "tests/support/painted_frame.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

const std::vector<double> steps{0.88, 0.55, 0.32, 0.17, 0.08, 0.035};
const Lab wood{52, 14, 27}, stained{48, 16, 25};

// The card along the top, the original below it on the left, the repair on the right.
Lab paint_scene(int x, int y) {
    if (y < 60) return neutral_card(steps).patches[static_cast<std::size_t>(std::min(x / 60, 5))].lab;
    return x < 180 ? wood : stained;
}

constexpr Quad card_corners{Point{0, 0}, Point{360, 0}, Point{360, 60}, Point{0, 60}};
const Region left = rectangle({10, 80, 150, 150}), right = rectangle({200, 80, 150, 150});

Comparison compare_scene(const std::function<Lab(int, int)>& paint) {
    const Frame frame = paint_frame(360, 240, paint);
    return compare_regions(frame, calibrate_on_card(frame, neutral_card(steps), card_corners), left, right);
}

}  // namespace

TEST_CASE("A painted colour is read back as it was painted") {
    const Comparison comparison = compare_scene(paint_scene);
    CHECK(comparison.original.lab.L == Approx(wood.L).margin(2e-4));
    CHECK(comparison.original.lab.a == Approx(wood.a).margin(2e-4));
    CHECK(comparison.repair.lab.b == Approx(stained.b).margin(2e-4));
    CHECK(comparison.difference.de2000 == Approx(ciede2000(wood, stained).value).margin(3e-4));
    CHECK(comparison.difference.dL == Approx(-4).margin(4e-4));
    CHECK(comparison.original.figure_share == 0);
    CHECK(comparison.original.blank_de2000 == Approx(0).margin(1e-4));
}

TEST_CASE("Chroma and hue differences make up the same distance as a* and b*") {
    const Difference d = compare_scene(paint_scene).difference;
    CHECK(d.dC * d.dC + d.dH * d.dH == Approx(d.da * d.da + d.db * d.db));
    CHECK(d.dH < 0);  // from hue 62.6° to 57.4°: redder
}

TEST_CASE("A dim, tinted, lifted picture of the same scene reads the same: the card takes it all out") {
    const auto shifted = [](int x, int y) {
        // In linear light: 60 % exposure, a warm cast, black lifted by 0.5 %.
        const XYZ xyz = to_xyz(paint_scene(x, y), d50_icc);
        static const Matrix3 to_xyz_d50 = linear_srgb_encoding(Provenance::stated).to_xyz_d50;
        Vector3 rgb = inverse(to_xyz_d50) * Vector3{xyz.X, xyz.Y, xyz.Z};
        rgb = {0.6 * rgb[0] + 0.005, 0.52 * rgb[1] + 0.005, 0.4 * rgb[2] + 0.005};
        const Vector3 seen = to_xyz_d50 * rgb;
        return to_lab({seen[0], seen[1], seen[2]}, d50_icc);
    };
    const Comparison comparison = compare_scene(shifted);
    CHECK(comparison.original.lab.L == Approx(wood.L).margin(3e-3));
    CHECK(comparison.original.lab.b == Approx(wood.b).margin(3e-3));
    CHECK(comparison.difference.de2000 == Approx(ciede2000(wood, stained).value).margin(2e-3));
}

TEST_CASE("Light is averaged, not lightness: half black-ish and half bright reads as their mixed light") {
    const Lab dark{20, 0, 0}, bright{80, 0, 0};
    const auto checks = [&](int x, int y) {
        return y < 60 ? paint_scene(x, y) : (x + y) % 2 ? dark : bright;
    };
    const Comparison comparison = compare_scene(checks);
    const double mixed = 0.5 * (to_xyz(dark, d50_icc).Y + to_xyz(bright, d50_icc).Y);
    CHECK(comparison.original.lab.L ==
          Approx(to_lab({mixed * d50_icc.X, mixed, mixed * d50_icc.Z}, d50_icc).L).margin(1e-3));
    CHECK(comparison.original.lab.L > 59.0);  // the mean of the lightnesses would be 50
}

TEST_CASE("Dark grain over light ground is two populations with their own colours and share") {
    const Lab ground{58, 12, 27}, figure{44, 14, 24};
    NormalDraws noise(3);
    const auto grained = [&](int x, int y) {
        if (y < 60) return paint_scene(x, y);
        Lab lab = (x / 3) % 10 < 3 ? figure : ground;
        lab.L += 0.8 * noise();
        return lab;
    };
    const Comparison comparison = compare_scene(grained);
    CHECK(comparison.original.figure_share == Approx(0.30).margin(0.005));
    CHECK(ciede2000(comparison.original.ground, ground).value < 0.15);
    CHECK(ciede2000(comparison.original.figure, figure).value < 0.15);
}

TEST_CASE("Even noise on plain wood stays one population") {
    NormalDraws noise(4);
    const auto noisy = [&](int x, int y) {
        Lab lab = paint_scene(x, y);
        if (y >= 60) lab.L += 2.5 * noise();
        return lab;
    };
    const Comparison comparison = compare_scene(noisy);
    CHECK(comparison.original.figure_share == 0);
    CHECK(comparison.repair.figure_share == 0);
}

TEST_CASE("Specks that mirror the lamp are left out and counted, dark and light grain is not") {
    const auto sparkling = [](int x, int y) {
        if (y < 60) return paint_scene(x, y);
        if (x % 20 == 7 && y % 10 == 3) return Lab{85, 3, 6};  // veiled by the lamp
        Lab lab = paint_scene(x, y);
        lab.L += (x / 4) % 2 ? 4 : -4;
        return lab;
    };
    const Comparison comparison = compare_scene(sparkling);
    const std::size_t specks = 15 * 7;  // columns 27…147 by 20 and 167 is out: 7; rows 83…223 by 10: 15
    CHECK(comparison.original.rejected_glare == specks);
    CHECK(comparison.original.pixels == 150 * 150 - specks);
}

TEST_CASE("The spread of the mean of independent pixels falls with the root of their number") {
    NormalDraws noise(5);
    const auto noisy = [&](int x, int y) {
        Lab lab = paint_scene(x, y);
        if (y >= 60) lab.L += 2.0 * noise();
        return lab;
    };
    const Comparison comparison = compare_scene(noisy);
    const double n = comparison.original.sampled.effective_samples;
    INFO("effective samples " << n << " of " << comparison.original.pixels);
    // The widest of many divisions is taken, so the count errs on the safe side.
    CHECK(n < 1.05 * static_cast<double>(comparison.original.pixels));
    CHECK(n > 0.3 * static_cast<double>(comparison.original.pixels));
}

TEST_CASE("Streaks along the grain leave as many independent samples as there are streaks") {
    NormalDraws noise(6);
    std::vector<double> streak(120);
    for (double& value : streak) value = 2.0 * noise();
    const auto streaked = [&](int x, int y) {
        Lab lab = paint_scene(x, y);
        if (y >= 60) lab.L += streak[static_cast<std::size_t>(x / 3)];
        return lab;
    };
    const double n = compare_scene(streaked).original.sampled.effective_samples;
    INFO("effective samples " << n << "; streaks 50");
    CHECK(n < 75);
    CHECK(n > 12);
}

TEST_CASE("Regions that cannot be read say why") {
    const Frame frame = paint_frame(360, 240, paint_scene);
    const Calibration calibration = calibrate_on_card(frame, neutral_card(steps), card_corners);
    CHECK_THROWS_WITH(read_region(frame, calibration, rectangle({20, 100, 1, 1}), "--repair"),
                      contains("--repair") && contains("1 pixel,"));
    CHECK_THROWS_AS(read_region(frame, calibration, rectangle({300, 100, 100, 100}), "--repair"), InputError);
    const Frame white = paint_frame(360, 240, [](int x, int y) {
        return y < 60 ? paint_scene(x, y) : Lab{101, 0, 0};
    });
    CHECK_THROWS_WITH(read_region(white, calibration, left, "--original"), contains("clipped"));
}
