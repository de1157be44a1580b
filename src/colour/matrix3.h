#pragma once

#include <array>

namespace tonemend {

/// Row-major 3×3 matrix of doubles; unitless unless its maker says otherwise.
struct Matrix3 {
    std::array<std::array<double, 3>, 3> m{};

    static Matrix3 identity();
    static Matrix3 diagonal(double a, double b, double c);
};

using Vector3 = std::array<double, 3>;

Matrix3 operator*(const Matrix3& left, const Matrix3& right);
Vector3 operator*(const Matrix3& left, const Vector3& right);
double determinant(const Matrix3& matrix);
/// The inverse; the matrix must not be singular (asserted).
Matrix3 inverse(const Matrix3& matrix);
Matrix3 transpose(const Matrix3& matrix);

}  // namespace tonemend
