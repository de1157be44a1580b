#include "colour/cct.h"

#include <lcms2.h>

#include <cmath>

#include "calibrate/model/reference_spectra.h"
#include "colour/integrate.h"
#include "colour/planckian_locus.h"
#include "tests/catch.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

namespace {

// The point at `duv` from the locus, its foot at `kelvin`.
Ucs1960 find_point_beside(double kelvin, double duv) {
    const Ucs1960 here = planckian_locus(kelvin);
    const Ucs1960 cooler = planckian_locus(kelvin * (1 - 1e-5));
    const Ucs1960 hotter = planckian_locus(kelvin * (1 + 1e-5));
    const double du = cooler.u - hotter.u;
    const double dv = cooler.v - hotter.v;
    const double length = std::hypot(du, dv);
    // A quarter turn from the direction of falling temperature is towards green.
    return {here.u - duv * dv / length, here.v + duv * du / length};
}

}  // namespace

TEST_CASE("The tabulated Planckian locus is the sum of Planck's law with the CIE 1931 observer") {
    const Observer observer = read_observer_1931();
    double worst = 0;
    for (double mired = 40; mired <= 1000; mired += 3) {
        const Ucs1960 summed =
            to_ucs1960(perfect_diffuser(white_point(planckian_radiator(1e6 / mired, 360, 830, 1), observer)));
        const Ucs1960 tabulated = planckian_locus(1e6 / mired);
        worst = std::fmax(worst, std::hypot(tabulated.u - summed.u, tabulated.v - summed.v));
    }
    check_tight("Planckian locus in u, v", worst, 1e-7);
}

TEST_CASE("The Planckian locus passes the points of Robertson's table") {
    // A. R. Robertson, J. Opt. Soc. Am. 58 (1968); Wyszecki and Stiles, Color Science, table 1(3.11), with
    // the misprint at 325 mired put right (from memory).
    struct Row {
        double mired, u, v;
    };
    const Row rows[] = {
        {40, 0.18293, 0.27407},  {50, 0.18388, 0.27709},  {60, 0.18494, 0.28021},  {70, 0.18611, 0.28342},
        {80, 0.18740, 0.28668},  {90, 0.18880, 0.28997},  {100, 0.19032, 0.29326}, {125, 0.19462, 0.30141},
        {150, 0.19962, 0.30921}, {175, 0.20525, 0.31647}, {200, 0.21142, 0.32312}, {225, 0.21807, 0.32909},
        {250, 0.22511, 0.33439}, {275, 0.23247, 0.33904}, {300, 0.24010, 0.34308}, {325, 0.24792, 0.34655},
        {350, 0.25591, 0.34951}, {375, 0.26400, 0.35200}, {400, 0.27218, 0.35407}, {425, 0.28039, 0.35577},
        {450, 0.28863, 0.35714}, {475, 0.29685, 0.35823}, {500, 0.30505, 0.35907}, {525, 0.31320, 0.35968},
        {550, 0.32129, 0.36011}, {575, 0.32931, 0.36038}, {600, 0.33724, 0.36051},
    };
    double worst = 0;
    for (const Row& row : rows) {
        const Ucs1960 uv = planckian_locus(1e6 / row.mired);
        worst = std::fmax(worst, std::fmax(std::abs(uv.u - row.u), std::abs(uv.v - row.v)));
    }
    check_tight("Robertson's table (half the last digit, and a little)", worst, 1e-5);
}

TEST_CASE("Correlated colour temperatures of the CIE illuminants are the published ones") {
    struct Row {
        const char* name;
        double kelvin;
        double rounding;  // of the published value, and of the table for the D series
    };
    // CIE 15:2004 (from memory).
    const Row rows[] = {
        {"CIE-A", 2856, 1},   {"CIE-C", 6774, 1},  {"CIE-D50", 5003, 2},  {"CIE-D55", 5503, 1},
        {"CIE-D65", 6504, 1}, {"CIE-F1", 6430, 5}, {"CIE-F2", 4230, 6},   {"CIE-F3", 3450, 5},
        {"CIE-F4", 2940, 5},  {"CIE-F5", 6350, 5}, {"CIE-F6", 4150, 5},   {"CIE-F7", 6500, 6},
        {"CIE-F8", 5000, 5},  {"CIE-F9", 4150, 5}, {"CIE-F10", 5000, 13}, {"CIE-F11", 4000, 5},
        {"CIE-F12", 3000, 5},
    };
    const Observer observer = read_observer_1931();
    for (const Row& row : rows) {
        const auto found = correlated_colour_temperature(white_point(read_illuminant(row.name), observer));
        REQUIRE(found);
        std::printf("  %s: %.1f K (published %.0f), Duv %+.4f\n", row.name, found->kelvin, row.kelvin,
                    found->duv);
        CHECK(std::abs(found->kelvin - row.kelvin) <= row.rounding);
    }
}

TEST_CASE("A point beside the locus has the temperature at its foot and its distance, greenish over 0") {
    double worst_kelvin = 0;
    double worst_duv = 0;
    for (double kelvin = 1010; kelvin < 24900; kelvin *= 1.01) {
        for (const double duv : {-0.02, -0.005, 0.0, 0.005, 0.02}) {
            const auto found = correlated_colour_temperature(find_point_beside(kelvin, duv));
            REQUIRE(found);
            worst_kelvin = std::fmax(worst_kelvin, std::abs(found->kelvin / kelvin - 1));
            worst_duv = std::fmax(worst_duv, std::abs(found->duv - duv));
        }
    }
    // What is left is the locus' direction, which jumps a little from one piece of the interpolation to the
    // next.
    check_tight("relative temperature beside the locus", worst_kelvin, 5e-5);
    check_tight("Duv beside the locus", worst_duv, 1e-10);
}

TEST_CASE("Colour temperature agrees with Little CMS within Robertson's method") {
    double worst = 0;
    double worst_at_misprint = 0;
    for (double kelvin = 1700; kelvin < 24000; kelvin *= 1.02) {
        // Little CMS has the misprint at 325 mired, which bends its locus from 300 to 350.
        double& worst_here = std::abs(1e6 / kelvin - 325) < 26 ? worst_at_misprint : worst;
        for (const double duv : {-0.004, 0.0, 0.004}) {
            const Ucs1960 uv = find_point_beside(kelvin, duv);
            const double divisor = 2 * uv.u - 8 * uv.v + 4;
            const cmsCIExyY white{3 * uv.u / divisor, 2 * uv.v / divisor, 1};
            double theirs = 0;
            REQUIRE(cmsTempFromWhitePoint(&theirs, &white));
            const auto ours = correlated_colour_temperature(uv);
            REQUIRE(ours);
            worst_here = std::fmax(worst_here, std::abs(1e6 / theirs - 1e6 / ours->kelvin));
        }
    }
    check_tight("colour temperature against Little CMS, mired", worst, 0.1);
    check_tight("the same beside the misprint", worst_at_misprint, 3);
}

TEST_CASE("There is no colour temperature outside 1000 to 25 000 K or far from the locus") {
    const Observer observer = read_observer_1931();
    const auto of_radiator = [&](double kelvin) {
        return correlated_colour_temperature(white_point(planckian_radiator(kelvin, 360, 830, 1), observer));
    };
    CHECK_FALSE(of_radiator(990));
    CHECK(of_radiator(1005));
    CHECK(of_radiator(24800));
    CHECK_FALSE(of_radiator(25500));
    CHECK(correlated_colour_temperature(planckian_locus(1000))->kelvin == Approx(1000).epsilon(1e-9));
    CHECK(correlated_colour_temperature(planckian_locus(25000))->kelvin == Approx(25000).epsilon(1e-9));
    const Ucs1960 locus = planckian_locus(4000);
    CHECK(correlated_colour_temperature(Ucs1960{locus.u, locus.v + 0.045}));
    CHECK_FALSE(correlated_colour_temperature(Ucs1960{locus.u, locus.v + 0.08}));
    CHECK_FALSE(correlated_colour_temperature(Ucs1960{locus.u, locus.v - 0.08}));
}
