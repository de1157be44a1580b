#include "colour/difference.h"

#include <cmath>

#include "colour/lch.h"
#include "tests/catch.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

namespace {

struct Published {
    Lab first;
    Lab second;
    double dE00;
};

// Sharma, Wu, Dalal, "The CIEDE2000 color-difference formula: implementation notes, supplementary test data,
// and mathematical observations", Color Res. Appl. 30 (2005), table 1.
const Published table_1[] = {
    {{50, 2.6772, -79.7751}, {50, 0, -82.7485}, 2.0425},
    {{50, 3.1571, -77.2803}, {50, 0, -82.7485}, 2.8615},
    {{50, 2.8361, -74.0200}, {50, 0, -82.7485}, 3.4412},
    {{50, -1.3802, -84.2814}, {50, 0, -82.7485}, 1.0000},
    {{50, -1.1848, -84.8006}, {50, 0, -82.7485}, 1.0000},
    {{50, -0.9009, -85.5211}, {50, 0, -82.7485}, 1.0000},
    {{50, 0, 0}, {50, -1, 2}, 2.3669},
    {{50, -1, 2}, {50, 0, 0}, 2.3669},
    {{50, 2.4900, -0.0010}, {50, -2.4900, 0.0009}, 7.1792},
    {{50, 2.4900, -0.0010}, {50, -2.4900, 0.0010}, 7.1792},
    {{50, 2.4900, -0.0010}, {50, -2.4900, 0.0011}, 7.2195},
    {{50, 2.4900, -0.0010}, {50, -2.4900, 0.0012}, 7.2195},
    {{50, -0.0010, 2.4900}, {50, 0.0009, -2.4900}, 4.8045},
    {{50, -0.0010, 2.4900}, {50, 0.0010, -2.4900}, 4.8045},
    {{50, -0.0010, 2.4900}, {50, 0.0011, -2.4900}, 4.7461},
    {{50, 2.5, 0}, {50, 0, -2.5}, 4.3065},
    {{50, 2.5, 0}, {73, 25, -18}, 27.1492},
    {{50, 2.5, 0}, {61, -5, 29}, 22.8977},
    {{50, 2.5, 0}, {56, -27, -3}, 31.9030},
    {{50, 2.5, 0}, {58, 24, 15}, 19.4535},
    {{50, 2.5, 0}, {50, 3.1736, 0.5854}, 1.0000},
    {{50, 2.5, 0}, {50, 3.2972, 0}, 1.0000},
    {{50, 2.5, 0}, {50, 1.8634, 0.5757}, 1.0000},
    {{50, 2.5, 0}, {50, 3.2592, 0.3350}, 1.0000},
    {{60.2574, -34.0099, 36.2677}, {60.4626, -34.1751, 39.4387}, 1.2644},
    {{63.0109, -31.0961, -5.8663}, {62.8187, -29.7946, -4.0864}, 1.2630},
    {{61.2901, 3.7196, -5.3901}, {61.4292, 2.2480, -4.9620}, 1.8731},
    {{35.0831, -44.1164, 3.7933}, {35.0232, -40.0716, 1.5901}, 1.8645},
    {{22.7233, 20.0904, -46.6940}, {23.0331, 14.9730, -42.5619}, 2.0373},
    {{36.4612, 47.8580, 18.3852}, {36.2715, 50.5065, 21.2231}, 1.4146},
    {{90.8027, -2.0831, 1.4410}, {91.1528, -1.6435, 0.0447}, 1.4441},
    {{90.9257, -0.5406, -0.9208}, {88.6381, -0.8985, -0.7239}, 1.5381},
    {{6.7747, -0.2908, -2.4247}, {5.8714, -0.0985, -2.2286}, 0.6377},
    {{2.0776, 0.0795, -1.1350}, {0.9033, -0.0636, -0.5514}, 0.9082},
};

}  // namespace

TEST_CASE("CIEDE2000 gives the 34 published pairs to their four digits in both orders") {
    REQUIRE(std::size(table_1) == 34);
    double worst = 0;
    double asymmetry = 0;
    for (const Published& pair : table_1) {
        const double forth = ciede2000(pair.first, pair.second).value;
        const double back = ciede2000(pair.second, pair.first).value;
        worst = std::fmax(worst, std::fmax(std::abs(forth - pair.dE00), std::abs(back - pair.dE00)));
        asymmetry = std::fmax(asymmetry, std::abs(forth - back));
    }
    check_tight("34 published pairs (half the last printed digit)", worst, 0.00005);
    CHECK(asymmetry <= 1e-13);
}

TEST_CASE("CIEDE2000 of opposite hues does not hang on the last bit of an angle") {
    // Opposite colours at every hue: turning both by a millionth of the slack must not change the branch
    // taken.
    for (int degrees = 0; degrees < 360; ++degrees) {
        const Lab colour = to_lab(LCh{50, 2.5, degrees + 0.5});
        const Lab opposite{50, -colour.a, -colour.b};
        const double exact = ciede2000(colour, opposite).value;
        for (const double nudge : {-1e-14, 1e-14}) {
            const Lab nudged{50, -colour.a * (1 + nudge), -colour.b * (1 - nudge)};
            INFO("hue " << degrees + 0.5);
            CHECK(std::abs(ciede2000(colour, nudged).value - exact) < 1e-11);
            CHECK(std::abs(ciede2000(nudged, colour).value - exact) < 1e-11);
        }
    }
}

TEST_CASE("CIEDE2000 is zero for equal colours, in neutrals and black too") {
    for (const Lab& colour :
         {Lab{0, 0, 0}, Lab{50, 0, 0}, Lab{100, 0, 0}, Lab{40, 20, -30}, Lab{40, -20, 0}}) {
        const Ciede2000 d = ciede2000(colour, colour);
        CHECK(d.value == 0);
        CHECK(d.dL == 0);
        CHECK(d.dC == 0);
        CHECK(d.dH == 0);
    }
}

TEST_CASE("CIEDE2000's parts are sample minus reference and turn their signs with the order") {
    const Ciede2000 forth = ciede2000({40, 20, 20}, {45, 21, 30});
    const Ciede2000 back = ciede2000({45, 21, 30}, {40, 20, 20});
    CHECK(forth.dL == 5);
    CHECK(forth.dC > 0);
    CHECK(forth.dH > 0);  // anticlockwise, from red towards yellow
    CHECK(back.dL == -forth.dL);
    CHECK(back.dC == -forth.dC);
    CHECK(back.dH == Approx(-forth.dH).epsilon(1e-14));
    CHECK(back.rotation == forth.rotation);
}

TEST_CASE("CIEDE2000's rotation term is strongest for saturated blues, and never positive") {
    double lowest = 0;
    double lowest_hue = 0;
    for (int h = 0; h < 360; ++h) {
        const double rotation =
            ciede2000(to_lab(LCh{50, 100, h - 0.01}), to_lab(LCh{50, 100, h + 0.01})).rotation;
        CHECK(rotation <= 0);
        if (rotation < lowest) {
            lowest = rotation;
            lowest_hue = h;
        }
    }
    // R_T = −R_C·sin 2Δθ with Δθ = 30° at a mean hue of 275° (equations 16, 17 and 21 of the paper).
    CHECK(lowest_hue == 275);
    const double c7 = std::pow(100.0, 7);
    CHECK(lowest == Approx(-std::sqrt(3.0) * std::sqrt(c7 / (c7 + std::pow(25.0, 7)))).epsilon(1e-6));
}

TEST_CASE("CIEDE2000 may exceed 100 for saturated pairs and is not clamped") {
    CHECK(ciede2000({0, 0, 0}, {100, 0, 0}).value == Approx(100).epsilon(1e-14));
    // Little CMS agrees on this pair: it is within the range of the random pairs of the other test.
    CHECK(ciede2000({0, -128, 128}, {100, 128, -128}).value > 110);
}

TEST_CASE("CIE76 is Euclidean distance") {
    CHECK(delta_e_76({50, 0, 0}, {52, 3, -6}) == 7);
    CHECK(delta_e_76({52, 3, -6}, {50, 0, 0}) == 7);
}

TEST_CASE("CIE94 weighs by the reference's chroma and so depends on the order") {
    // By hand from CIE 116-1995: C1 = 40, ΔC = 10 alone, SC = 1 + 0.045·40 = 2.8.
    CHECK(delta_e_94({50, 40, 0}, {50, 50, 0}) == Approx(10 / 2.8).epsilon(1e-14));
    CHECK(delta_e_94({50, 50, 0}, {50, 40, 0}) == Approx(10 / 3.25).epsilon(1e-14));
    // ΔH alone: a 60° turn at C = 40 is a chord of 40, SH = 1 + 0.015·40 = 1.6.
    CHECK(delta_e_94({50, 40, 0}, {50, 20, 40 * std::sqrt(0.75)}) == Approx(25).epsilon(1e-12));
    // Lightness alone is unweighted, and a neutral reference makes it Euclidean.
    CHECK(delta_e_94({50, 0, 0}, {52, 3, -6}) == Approx(7).epsilon(1e-14));
    CHECK(delta_e_94({50, 33.3, 11.1}, {50, 33.3, 11.1}) < 1e-6);
}
