#include "colour/matrix3.h"

#include <cassert>
#include <cmath>
#include <cstddef>

namespace tonemend {

Matrix3 Matrix3::identity() {
    return diagonal(1, 1, 1);
}

Matrix3 Matrix3::diagonal(double a, double b, double c) {
    return {{{{a, 0, 0}, {0, b, 0}, {0, 0, c}}}};
}

Matrix3 operator*(const Matrix3& left, const Matrix3& right) {
    Matrix3 product;
    for (std::size_t row = 0; row < 3; ++row) {
        for (std::size_t column = 0; column < 3; ++column) {
            for (std::size_t k = 0; k < 3; ++k) {
                product.m[row][column] += left.m[row][k] * right.m[k][column];
            }
        }
    }
    return product;
}

Vector3 operator*(const Matrix3& left, const Vector3& right) {
    Vector3 product{};
    for (std::size_t row = 0; row < 3; ++row) {
        product[row] = left.m[row][0] * right[0] + left.m[row][1] * right[1] + left.m[row][2] * right[2];
    }
    return product;
}

double determinant(const Matrix3& matrix) {
    const auto& m = matrix.m;
    return m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) -
           m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0]) +
           m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
}

Matrix3 inverse(const Matrix3& matrix) {
    const double d = determinant(matrix);
    assert(d != 0 && std::isfinite(d));
    Matrix3 result;
    for (std::size_t row = 0; row < 3; ++row) {
        const std::size_t r1 = (row + 1) % 3;
        const std::size_t r2 = (row + 2) % 3;
        for (std::size_t column = 0; column < 3; ++column) {
            const std::size_t c1 = (column + 1) % 3;
            const std::size_t c2 = (column + 2) % 3;
            // Cyclic indices carry the cofactor's sign; the transposed place makes it the adjugate.
            result.m[column][row] =
                (matrix.m[r1][c1] * matrix.m[r2][c2] - matrix.m[r1][c2] * matrix.m[r2][c1]) / d;
        }
    }
    return result;
}

Matrix3 transpose(const Matrix3& matrix) {
    Matrix3 result;
    for (std::size_t row = 0; row < 3; ++row) {
        for (std::size_t column = 0; column < 3; ++column) {
            result.m[column][row] = matrix.m[row][column];
        }
    }
    return result;
}

}  // namespace tonemend
