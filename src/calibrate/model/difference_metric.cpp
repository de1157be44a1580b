#include "calibrate/model/difference_metric.h"

#include <Eigen/Dense>
#include <algorithm>

#include "colour/difference.h"
#include "colour/lab.h"

namespace tonemend {

Eigen::Matrix3d difference_metric(const XYZ& xyz) {
    const double step = 1e-4 * std::max(xyz.Y, 0.01);
    const auto square = [&](double x, double y, double z) {
        const Lab there = to_lab({xyz.X + step * x, xyz.Y + step * y, xyz.Z + step * z}, d50_icc);
        const Lab back = to_lab({xyz.X - step * x, xyz.Y - step * y, xyz.Z - step * z}, d50_icc);
        const double e = ciede2000(back, there).value / (2 * step);
        return e * e;
    };
    Eigen::Matrix3d gram;
    gram(0, 0) = square(1, 0, 0), gram(1, 1) = square(0, 1, 0), gram(2, 2) = square(0, 0, 1);
    gram(0, 1) = gram(1, 0) = (square(1, 1, 0) - gram(0, 0) - gram(1, 1)) / 2;
    gram(0, 2) = gram(2, 0) = (square(1, 0, 1) - gram(0, 0) - gram(2, 2)) / 2;
    gram(1, 2) = gram(2, 1) = (square(0, 1, 1) - gram(1, 1) - gram(2, 2)) / 2;
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> solver(gram);
    return solver.eigenvalues().cwiseMax(0).cwiseSqrt().asDiagonal() * solver.eigenvectors().transpose();
}

}  // namespace tonemend
