#include "colour/matrix3.h"

#include <cmath>

#include "tests/catch.h"

using namespace tonemend;

TEST_CASE("A matrix times its inverse is the identity") {
    // A small integer matrix worked by hand: determinant 5, adjugate below.
    const Matrix3 matrix{{{{2, -1, 0}, {1, 1, 1}, {0, 2, 3}}}};
    REQUIRE(determinant(matrix) == 5);
    const Matrix3 adjugate{{{{1, 3, -1}, {-3, 6, -2}, {2, -4, 3}}}};
    const Matrix3 found = inverse(matrix);
    for (std::size_t row = 0; row < 3; ++row) {
        for (std::size_t column = 0; column < 3; ++column) {
            CHECK(found.m[row][column] == Approx(adjugate.m[row][column] / 5).epsilon(1e-15));
        }
    }
    const Matrix3 product = matrix * found;
    for (std::size_t row = 0; row < 3; ++row) {
        for (std::size_t column = 0; column < 3; ++column) {
            CHECK(std::abs(product.m[row][column] - (row == column ? 1 : 0)) < 1e-15);
        }
    }
}

TEST_CASE("Matrices are row-major, and multiply from the left") {
    const Matrix3 left{{{{1, 2, 3}, {4, 5, 6}, {7, 8, 9}}}};
    CHECK(left * Vector3{1, 0, 0} == Vector3{1, 4, 7});
    CHECK(left * Vector3{1, 10, 100} == Vector3{321, 654, 987});
    CHECK(transpose(left) * Vector3{1, 0, 0} == Vector3{1, 2, 3});
    const Matrix3 right = Matrix3::diagonal(1, 10, 100);
    CHECK((left * right).m ==
          std::array<std::array<double, 3>, 3>{{{1, 20, 300}, {4, 50, 600}, {7, 80, 900}}});
    CHECK((right * left).m ==
          std::array<std::array<double, 3>, 3>{{{1, 2, 3}, {40, 50, 60}, {700, 800, 900}}});
    CHECK((Matrix3::identity() * left).m == left.m);
    CHECK(determinant(left) == 0);
}
