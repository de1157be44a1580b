#include "calibrate/model/root_polynomial.h"

#include <cmath>
#include <random>

#include "picture/input_error.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

// A number in 0..1 as NumPy's RandomState draws it: 53 bits of two draws of the Mersenne twister (M.
// Matsumoto, T. Nishimura, "Mersenne Twister", ACM Trans. Model. Comput. Simul. 8 (1998), genrand_res53).
double draw(std::mt19937& twister) {
    const double a = static_cast<double>(twister() >> 5U), b = static_cast<double>(twister() >> 6U);
    return (a * 67108864.0 + b) / 9007199254740992.0;
}

std::vector<Vector3> draw_rows(std::mt19937& twister, std::size_t count) {
    std::vector<Vector3> rows(count);
    for (Vector3& row : rows)
        for (double& value : row) value = draw(twister);
    return rows;
}

}  // namespace

TEST_CASE("Root terms of degree two are those of the published worked example") {
    // Documentation of the Python library colour-science, polynomial_expansion_Finlayson2015, example.
    const Eigen::VectorXd terms = root_polynomial_terms({0.17224810, 0.09170660, 0.06416938}, 2);
    const double published[] = {0.1722481, 0.0917066, 0.0641693, 0.1256832, 0.0767121, 0.1051335};
    REQUIRE(terms.size() == 6);
    for (Eigen::Index i = 0; i < 6; ++i) CHECK(std::abs(terms[i] - published[i]) <= 1.01e-7);
}

TEST_CASE("The regression gives the matrix of the published worked example") {
    // The same documentation, matrix_colour_correction_Finlayson2015: 24 rows from RandomState(2), degree 1.
    std::mt19937 twister(2);
    const std::vector<Vector3> seen = draw_rows(twister, 24);
    std::vector<Vector3> wanted = seen;
    for (Vector3& row : wanted)
        for (double& value : row) value += (draw(twister) - 0.5) * 0.5;
    const Eigen::MatrixXd matrix = regress_on_terms(seen, wanted, 1);
    const double published[3][3] = {{1.0526376, 0.1378078, -0.2276339},
                                    {0.0739584, 1.0293994, -0.1060115},
                                    {0.0572550, -0.2052633, 1.1015194}};
    for (Eigen::Index row = 0; row < 3; ++row)
        for (Eigen::Index column = 0; column < 3; ++column)
            CHECK(std::abs(matrix(row, column) - published[row][column]) <= 1.01e-7);
    // colour_correction_Finlayson2015, its example with the same rows.
    const Eigen::VectorXd corrected = matrix * root_polynomial_terms({0.17224810, 0.09170660, 0.06416938}, 1);
    const double expected[] = {0.1793456, 0.1003392, 0.0617218};
    for (Eigen::Index i = 0; i < 3; ++i) CHECK(std::abs(corrected[i] - expected[i]) <= 1.01e-7);
}

TEST_CASE("Root terms of every degree grow in proportion to the light and there are 3, 6, 13 and 22") {
    // Finlayson, Mackiewicz, Hurlbert 2015, table I and section III (exposure invariance).
    const Eigen::Index counts[] = {3, 6, 13, 22};
    for (int degree = 1; degree <= 4; ++degree) {
        const Eigen::VectorXd once = root_polynomial_terms({0.3, 0.2, 0.1}, degree);
        const Eigen::VectorXd twice = root_polynomial_terms({0.6, 0.4, 0.2}, degree);
        CHECK(once.size() == counts[degree - 1]);
        CHECK((twice - 2 * once).norm() < 1e-12);
        // Equal channels make every term equal.
        const Eigen::VectorXd grey = root_polynomial_terms({0.4, 0.4, 0.4}, degree);
        CHECK((grey.array() - 0.4).abs().maxCoeff() < 1e-12);
    }
}

TEST_CASE("A root polynomial without a prior is refused on fewer than sixteen patches or than it has terms") {
    // Common practice, no source.
    std::mt19937 twister(7);
    const std::vector<XYZ> wanted(15);
    CHECK_THROWS_AS(fit_root_polynomial(draw_rows(twister, 15), wanted, 1), InputError);
    CHECK_NOTHROW(fit_root_polynomial(draw_rows(twister, 16), std::vector<XYZ>(16), 3));
    CHECK_THROWS_AS(fit_root_polynomial(draw_rows(twister, 21), std::vector<XYZ>(21), 4), InputError);
}
