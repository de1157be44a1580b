#include "colour/lab.h"

#include <lcms2.h>

#include <cmath>

#include "colour/lch.h"
#include "tests/catch.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

TEST_CASE("CIELAB agrees with Little CMS in both directions, below black and above white too") {
    const cmsCIEXYZ white{0.9642, 1.0, 0.8249};
    double worst_lab = 0;
    double worst_xyz = 0;
    for (int i = -2; i <= 30; ++i) {
        for (int j = -2; j <= 30; ++j) {
            for (int k = -2; k <= 30; ++k) {
                const XYZ colour{0.04 * i, 0.04 * j * j / 24, 0.04 * k};
                const cmsCIEXYZ theirs{colour.X, colour.Y, colour.Z};
                const Lab lab = to_lab(colour, d50_icc);
                cmsCIELab expected{};
                cmsXYZ2Lab(&white, &expected, &theirs);
                worst_lab = std::fmax(worst_lab,
                                      std::hypot(lab.L - expected.L, lab.a - expected.a, lab.b - expected.b));
                cmsCIEXYZ expected_xyz{};
                cmsLab2XYZ(&white, &expected_xyz, &expected);
                const XYZ xyz = to_xyz({expected.L, expected.a, expected.b}, d50_icc);
                worst_xyz = std::fmax(worst_xyz, std::hypot(xyz.X - expected_xyz.X, xyz.Y - expected_xyz.Y,
                                                            xyz.Z - expected_xyz.Z));
            }
        }
    }
    check_tight("Lab against Little CMS", worst_lab, 5e-13);
    check_tight("XYZ against Little CMS", worst_xyz, 2e-15);
}

TEST_CASE("The white is L 100, black is L 0, and both are neutral") {
    const Lab white = to_lab({0.9642, 1, 0.8249}, d50_icc);
    CHECK(white.L == 100);
    CHECK(white.a == 0);
    CHECK(white.b == 0);
    const Lab black = to_lab({0, 0, 0}, d50_icc);
    CHECK(std::abs(black.L) < 1e-14);
    CHECK(black.a == 0);
    CHECK(black.b == 0);
}

TEST_CASE("An 18 % grey is L 49.496, and L 50 reflects 18.419 %") {
    // 116·0.18^(1/3) − 16 and (66/116)³, worked by hand.
    CHECK(to_lab({0.18 * 0.9642, 0.18, 0.18 * 0.8249}, d50_icc).L == Approx(49.4961).margin(5e-5));
    CHECK(to_xyz({50, 0, 0}, d50_icc).Y == Approx(0.184187).margin(5e-7));
}

TEST_CASE("Near black CIELAB is linear with CIE's exact slope and joins the cube root without a step") {
    // κ = 24389/27 = 903.3 and ε = 216/24389 (CIE 15:2018, note to 8.2.1).
    const double epsilon = 216.0 / 24389.0;
    CHECK(to_lab({0, 0.001, 0}, d50_icc).L == Approx(24389.0 / 27.0 * 0.001).epsilon(1e-12));
    CHECK(to_lab({0, epsilon, 0}, d50_icc).L == Approx(8).epsilon(1e-13));
    CHECK(to_lab({0, std::nextafter(epsilon, 1), 0}, d50_icc).L == Approx(8).epsilon(1e-13));
}

TEST_CASE("to_xyz undoes to_lab") {
    double worst = 0;
    for (double value = -0.02; value < 1.2; value += 0.0013) {
        const XYZ colour{0.9 * value, value, 0.5 * value + 0.01};
        const XYZ back = to_xyz(to_lab(colour, d50_icc), d50_icc);
        worst = std::fmax(worst, std::hypot(back.X - colour.X, back.Y - colour.Y, back.Z - colour.Z));
    }
    check_tight("XYZ to Lab and back", worst, 2e-15);
}

TEST_CASE("Hue runs anticlockwise from +a, 0 to under 360, and a neutral has hue 0") {
    CHECK(hue_angle(1, 0) == 0);
    CHECK(hue_angle(0, 1) == 90);
    CHECK(hue_angle(-1, 0) == 180);
    CHECK(hue_angle(-1, -0.0) == 180);
    CHECK(hue_angle(0, -1) == 270);
    CHECK(hue_angle(0, 0) == 0);
    CHECK(hue_angle(-0.0, 0) == 0);
    CHECK(hue_angle(1, -1e-300) == 0);
    CHECK(hue_angle(1, -1e-6) < 360);
    CHECK(hue_angle(1, -1e-6) > 359.99);
}

TEST_CASE("LCh agrees with Little CMS and goes back to Lab") {
    double worst = 0;
    double worst_back = 0;
    for (int a = -120; a <= 120; a += 7) {
        for (int b = -120; b <= 120; b += 7) {
            const Lab colour{30, static_cast<double>(a), static_cast<double>(b)};
            const cmsCIELab theirs{colour.L, colour.a, colour.b};
            cmsCIELCh expected{};
            cmsLab2LCh(&expected, &theirs);
            const LCh lch = to_lch(colour);
            worst = std::fmax(worst, std::hypot(lch.C - expected.C, lch.h - expected.h));
            const Lab back = to_lab(lch);
            worst_back = std::fmax(worst_back, std::hypot(back.a - colour.a, back.b - colour.b));
        }
    }
    check_tight("LCh against Little CMS", worst, 2e-13);
    check_tight("Lab to LCh and back", worst_back, 3e-13);
}
