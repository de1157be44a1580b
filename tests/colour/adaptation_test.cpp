#include "colour/adaptation.h"

#include <lcms2.h>

#include <cmath>

#include "tests/catch.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

namespace {

const WhitePoint white_a{1.09850, 1, 0.35585};  // CIE illuminant A, D65 and F11: ASTM E308, table 5
const WhitePoint white_d65{0.95047, 1, 1.08883};
const WhitePoint white_f11{1.00962, 1, 0.64350};
const WhitePoint white_d50{0.96422, 1, 0.82521};

double worst_difference(const Matrix3& a, const Matrix3& b) {
    double worst = 0;
    for (std::size_t row = 0; row < 3; ++row) {
        for (std::size_t column = 0; column < 3; ++column) {
            worst = std::fmax(worst, std::abs(a.m[row][column] - b.m[row][column]));
        }
    }
    return worst;
}

}  // namespace

TEST_CASE("Bradford from D65 to D50 is the published matrix to its seven digits") {
    // B. Lindbloom's table of chromatic adaptation matrices, Bradford, D65 to D50 (from memory).
    const Matrix3 published{{{{1.0478112, 0.0228866, -0.0501270},
                              {0.0295424, 0.9904844, -0.0170491},
                              {-0.0092345, 0.0150436, 0.7521316}}}};
    check_tight("Bradford D65 to D50", worst_difference(bradford(white_d65, white_d50), published), 6e-8);
}

TEST_CASE("Bradford agrees with Little CMS for lights from incandescent to daylight") {
    double worst = 0;
    for (const WhitePoint& from : {white_a, white_d65, white_f11, white_d50}) {
        const cmsCIEXYZ source{from.X, from.Y, from.Z};
        const cmsCIEXYZ target{d50_icc.X, d50_icc.Y, d50_icc.Z};
        const Matrix3 matrix = bradford(from, d50_icc);
        for (const XYZ& colour : {XYZ{0.4, 0.3, 0.2}, XYZ{0.1, 0.2, 0.05}, XYZ{0.2, 0.1, 0.7}}) {
            const cmsCIEXYZ seen{colour.X, colour.Y, colour.Z};
            cmsCIEXYZ expected{};
            REQUIRE(cmsAdaptToIlluminant(&expected, &source, &target, &seen));
            const XYZ adapted = transform(matrix, colour);
            worst = std::fmax(
                worst, std::hypot(adapted.X - expected.X, adapted.Y - expected.Y, adapted.Z - expected.Z));
        }
    }
    // Little CMS rounds its matrix's inverse constants to seven digits; the bound is theirs.
    check_tight("Bradford against Little CMS", worst, 1e-15);
}

TEST_CASE("CAT16 is built on the published matrix and its published inverse") {
    // Li et al. (2017): M16 and, printed apart to eight digits, its inverse. Doubling one cone's response
    // adds to the identity the outer product of the inverse's column and the matrix' row.
    const double m[3][3] = {
        {0.401288, 0.650173, -0.051461}, {-0.250268, 1.204414, 0.045854}, {-0.002079, 0.048952, 0.953127}};
    const double inverse_m[3][3] = {{1.86206786, -1.01125463, 0.14918677},
                                    {0.38752654, 0.62144744, -0.00897398},
                                    {-0.01584150, -0.03412294, 1.04996444}};
    double worst = 0;
    for (std::size_t cone = 0; cone < 3; ++cone) {
        const WhitePoint doubled{1 + inverse_m[0][cone], 1 + inverse_m[1][cone], 1 + inverse_m[2][cone]};
        Matrix3 expected = Matrix3::identity();
        for (std::size_t row = 0; row < 3; ++row) {
            for (std::size_t column = 0; column < 3; ++column) {
                expected.m[row][column] += inverse_m[row][cone] * m[cone][column];
            }
        }
        // Equal-energy white excites all three cones of M16 alike: each of its rows sums to 1.
        worst = std::fmax(worst, worst_difference(cat16({1, 1, 1}, doubled), expected));
    }
    check_tight("CAT16 against the published inverse", worst, 2e-8);
}

TEST_CASE("Adaptation takes white to white, and back undoes it") {
    double worst = 0;
    for (const auto& adapt : {bradford, cat16}) {
        for (const WhitePoint& from : {white_a, white_d65, white_f11}) {
            const XYZ white = transform(adapt(from, d50_icc), {from.X, from.Y, from.Z});
            worst =
                std::fmax(worst, std::hypot(white.X - d50_icc.X, white.Y - d50_icc.Y, white.Z - d50_icc.Z));
            const Matrix3 there_and_back = adapt(d50_icc, from) * adapt(from, d50_icc);
            worst = std::fmax(worst, worst_difference(there_and_back, Matrix3::identity()));
        }
        CHECK(worst_difference(adapt(white_d65, white_d65), Matrix3::identity()) < 1e-15);
    }
    check_tight("white to white, and back", worst, 1.5e-15);
}
