#include "measure/lights_estimate.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "calibrate/model/difference_metric.h"

namespace tonemend {
namespace {

using Matrix3d = Eigen::Matrix3d;
using Vector3d = Eigen::Vector3d;

Vector3d to_eigen(const XYZ& xyz) {
    return {xyz.X, xyz.Y, xyz.Z};
}

LightNoises joined(const LightNoises& first, const LightNoises& second, std::size_t lights) {
    LightNoises result;
    for (std::size_t light = 0; light < lights; ++light)
        result.push_back(
            {std::sqrt((std::pow(first[light].brightness, 2) + std::pow(second[light].brightness, 2)) / 2),
             std::sqrt((std::pow(first[light].channel, 2) + std::pow(second[light].channel, 2)) / 2)});
    return result;
}

// How XYZ changes with theta: three rows.
Eigen::MatrixXd theta_rows(const SeenUnderLights& seen) {
    const Eigen::VectorXd f = features(seen);
    Eigen::MatrixXd rows = Eigen::MatrixXd::Zero(3, 3 * f.size());
    for (Eigen::Index out = 0; out < 3; ++out) rows.block(out, out * f.size(), 1, f.size()) = f.transpose();
    return rows;
}

// How XYZ changes for a relative change of one channel under one light: a column each, light one's channels
// first.
Eigen::MatrixXd channel_slopes(const ManyLightsModel& model, const SeenUnderLights& seen) {
    constexpr double h = 1e-4;
    const Vector3d before = to_eigen(model.to_xyz(seen));
    Eigen::MatrixXd slopes(3, static_cast<Eigen::Index>(3 * seen.size()));
    for (std::size_t light = 0; light < seen.size(); ++light)
        for (std::size_t c = 0; c < 3; ++c) {
            SeenUnderLights there = seen;
            there[light][c] *= 1 + h;
            slopes.col(static_cast<Eigen::Index>(3 * light + c)) =
                (to_eigen(model.to_xyz(there)) - before) / h;
        }
    return slopes;
}

// Uneven light: each region's own.
Matrix3d brightness_covariance(const Eigen::MatrixXd& slopes, const LightNoises& noise) {
    Matrix3d covariance = Matrix3d::Zero();
    for (std::size_t light = 0; light < noise.size(); ++light) {
        const Vector3d all = slopes.middleCols(static_cast<Eigen::Index>(3 * light), 3).rowwise().sum();
        covariance += std::pow(noise[light].brightness, 2) * all * all.transpose();
    }
    return covariance;
}

// Tone curves and steps: the same error for both regions.
Matrix3d channel_covariance(const Eigen::MatrixXd& slopes, const LightNoises& noise) {
    Eigen::VectorXd variance(slopes.cols());
    for (Eigen::Index i = 0; i < slopes.cols(); ++i)
        variance[i] = std::pow(noise[static_cast<std::size_t>(i / 3)].channel, 2);
    return slopes * variance.asDiagonal() * slopes.transpose();
}

// Variance of a distance whose two ends are apart by `apart`: along it when that is far, along the worst axis
// when it is near, since any error then makes a distance.
double distance_variance(const Vector3d& apart, const Matrix3d& covariance) {
    const Eigen::SelfAdjointEigenSolver<Matrix3d> axes(covariance, Eigen::EigenvaluesOnly);
    const double worst = std::max(axes.eigenvalues()[2], 0.0), square = apart.squaredNorm();
    if (square <= 0) return worst;
    const double along = (apart.transpose() * covariance * apart)(0) / square;
    const double far = square / (square + 4 * worst);
    return far * along + (1 - far) * worst;
}

}  // namespace

LightsEstimate estimate(const std::vector<std::vector<KnownSurface>>& cameras,
                        const std::vector<KnownSurface>& known, const SeenRegion& original,
                        const SeenRegion& repair, std::size_t lights) {
    std::vector<KnownSurface> patches = known;
    for (KnownSurface& patch : patches) patch.seen = first_lights(patch.seen, lights);
    const LightNoises noise = joined(original.noise, repair.noise, lights);
    LightsEstimate result;
    const ManyLightsFit fit = fit_many_lights(learn_many_lights(cameras, lights, noise), patches, noise);
    const ManyLightsModel& model = fit.model;
    const SeenUnderLights o = first_lights(original.seen, lights), r = first_lights(repair.seen, lights);
    result.original = model.to_xyz(o);
    result.repair = model.to_xyz(r);
    const Matrix3d metric = difference_metric(result.original);
    const Matrix3d one_de2000 =
        (metric.transpose() * metric).inverse();  // covariance of 1 ΔE2000 along each axis
    const auto covariance = [&](const Eigen::MatrixXd& rows) -> Matrix3d {
        return rows * fit.covariance * rows.transpose();
    };
    const double left = std::pow(fit.residual, 2);
    const Eigen::MatrixXd slopes_o = channel_slopes(model, o), slopes_r = channel_slopes(model, r);
    const auto noise_of = [&](const SeenRegion& region) {
        return LightNoises(region.noise.begin(), region.noise.begin() + static_cast<std::ptrdiff_t>(lights));
    };
    const Matrix3d uneven_o = brightness_covariance(slopes_o, noise_of(original));
    const Matrix3d uneven_r = brightness_covariance(slopes_r, noise_of(repair));
    result.original_covariance =
        covariance(theta_rows(o)) + uneven_o + channel_covariance(slopes_o, noise) + left * one_de2000;
    result.repair_covariance =
        covariance(theta_rows(r)) + uneven_r + channel_covariance(slopes_r, noise) + left * one_de2000;
    const Vector3d apart = metric * (to_eigen(result.repair) - to_eigen(result.original));
    result.difference_covariance = covariance(theta_rows(r) - theta_rows(o)) + uneven_o + uneven_r +
                                   channel_covariance(slopes_r - slopes_o, noise) +
                                   std::pow(fit.contrast, 2) * apart.squaredNorm() * one_de2000;
    result.de2000_u =
        std::sqrt(distance_variance(apart, metric * result.difference_covariance * metric.transpose()));
    return result;
}

}  // namespace tonemend
