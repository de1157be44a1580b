#include "measure/smoothest_reflectance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include <Eigen/Dense>

#include "calibrate/model/reference_spectra.h"
#include "colour/adaptation.h"
#include "colour/integrate.h"

namespace tonemend {
namespace {

constexpr auto bands = static_cast<Eigen::Index>(SmoothestReflectance::count);
using BandVector = Eigen::Matrix<double, bands, 1>;
using BandWeights = Eigen::Matrix<double, bands, 3>;

// D50 times the observer, each column scaled to the ICC's D50 white.
const BandWeights& d50_weights() {
    static const BandWeights weights = [] {
        BandWeights list;
        const Weights fine = weigh(read_illuminant("CIE-D50"), read_observer_1931());
        for (Eigen::Index i = 0; i < bands; ++i) {
            const double nm = SmoothestReflectance::wavelength(static_cast<std::size_t>(i));
            list.row(i) << fine.X.at(nm), fine.Y.at(nm), fine.Z.at(nm);
        }
        const Eigen::RowVector3d white(d50_icc.X, d50_icc.Y, d50_icc.Z);
        return BandWeights(list * white.cwiseQuotient(list.colwise().sum()).asDiagonal());
    }();
    return weights;
}

Lab to_lab_of(const BandVector& reflectance) {
    const Eigen::Vector3d xyz = d50_weights().transpose() * reflectance;
    return to_lab(XYZ{xyz[0], xyz[1], xyz[2]}, d50_icc);
}

// The gradient of the sum of squared steps from band to band is this times z.
Eigen::Matrix<double, bands, bands> slope_matrix() {
    Eigen::Matrix<double, bands, bands> matrix = Eigen::Matrix<double, bands, bands>::Zero();
    for (Eigen::Index i = 0; i + 1 < bands; ++i) {
        matrix(i, i) += 2, matrix(i + 1, i + 1) += 2;
        matrix(i, i + 1) -= 2, matrix(i + 1, i) -= 2;
    }
    return matrix;
}

// Nothing when it does not converge, as for colours that no surface has.
std::optional<BandVector> find_smoothest(const Lab& lab) {
    const BandWeights& weights = d50_weights();
    static const Eigen::Matrix<double, bands, bands> slopes = slope_matrix();
    const XYZ wanted_xyz = to_xyz(lab, d50_icc);
    const Eigen::Vector3d wanted(wanted_xyz.X, wanted_xyz.Y, wanted_xyz.Z);
    BandVector z = BandVector::Zero();
    Eigen::Vector3d multipliers = Eigen::Vector3d::Zero();
    constexpr int most_steps = 60;
    constexpr double settled = 1e-9;
    for (int step = 0; step < most_steps; ++step) {
        const BandVector t = z.array().tanh(), half = 0.5 * (1 - t.array().square());
        const BandVector pulled = weights * multipliers;
        Eigen::Matrix<double, bands + 3, 1> residual;
        residual << slopes * z + half.cwiseProduct(pulled),
            weights.transpose() * (0.5 * (t.array() + 1)).matrix() - wanted;
        if (!residual.allFinite()) return std::nullopt;
        if (residual.cwiseAbs().maxCoeff() < settled) return BandVector(0.5 * (t.array() + 1));
        Eigen::Matrix<double, bands + 3, bands + 3> matrix =
            Eigen::Matrix<double, bands + 3, bands + 3>::Zero();
        matrix.topLeftCorner<bands, bands>() = slopes;
        matrix.diagonal().head<bands>() -= 2 * half.cwiseProduct(t).cwiseProduct(pulled);
        matrix.topRightCorner<bands, 3>() = half.asDiagonal() * weights;
        matrix.bottomLeftCorner<3, bands>() = matrix.topRightCorner<bands, 3>().transpose();
        const Eigen::Matrix<double, bands + 3, 1> move = matrix.partialPivLu().solve(residual);
        z -= move.head<bands>();
        multipliers -= move.tail<3>();
    }
    return std::nullopt;
}

}  // namespace

SmoothestReflectance::SmoothestReflectance(const Lab& lab) {
    Lab tried = lab;
    tried.L = std::clamp(tried.L, 0.5, 99.5);
    std::optional<BandVector> found = find_smoothest(tried);
    // Nearer to grey, until there is such a surface.
    constexpr double less = 0.9;
    for (int step = 0; step < 60 && !found; ++step) {
        tried.a *= less, tried.b *= less;
        found = find_smoothest(tried);
    }
    const BandVector values = found.value_or(BandVector::Constant(0.5));
    values_.assign(values.data(), values.data() + bands);
    const Lab reached = to_lab_of(values);
    missed_ = {lab.L - reached.L, lab.a - reached.a, lab.b - reached.b};
}

Lab SmoothestReflectance::lab_of(const std::vector<double>& reflectance) const {
    const Lab lab = to_lab_of(Eigen::Map<const BandVector>(reflectance.data()));
    return {lab.L + missed_.L, lab.a + missed_.a, lab.b + missed_.b};
}

}  // namespace tonemend
