#include "measure/estimated_reflectance.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <Eigen/Dense>

#include "calibrate/model/reference_spectra.h"
#include "colour/adaptation.h"
#include "colour/integrate.h"

namespace tonemend {
namespace {

using Powers = Eigen::Vector3d;  // of the logarithm of K/S: constant, slope, bend

// D50 times the observer at the wavelengths of the estimate, each column scaled to the ICC's D50 white.
const std::array<Vector3, EstimatedReflectance::count>& band_weights() {
    static const auto weights = [] {
        std::array<Vector3, EstimatedReflectance::count> list{};
        const Weights fine = weigh(read_illuminant("CIE-D50"), read_observer_1931());
        Vector3 sum{};
        for (std::size_t i = 0; i < list.size(); ++i) {
            const double nm = EstimatedReflectance::wavelength(i);
            list[i] = {fine.X.at(nm), fine.Y.at(nm), fine.Z.at(nm)};
            for (std::size_t k = 0; k < 3; ++k) sum[k] += list[i][k];
        }
        const Vector3 white{d50_icc.X, d50_icc.Y, d50_icc.Z};
        for (Vector3& one : list)
            for (std::size_t k = 0; k < 3; ++k) one[k] *= white[k] / sum[k];
        return list;
    }();
    return weights;
}

Lab lab_of_bands(const std::vector<double>& reflectance) {
    const auto& weights = band_weights();
    XYZ xyz;
    for (std::size_t i = 0; i < weights.size(); ++i) {
        xyz.X += weights[i][0] * reflectance[i];
        xyz.Y += weights[i][1] * reflectance[i];
        xyz.Z += weights[i][2] * reflectance[i];
    }
    return to_lab(xyz, d50_icc);
}

std::vector<double> reflectance_of(const Powers& powers) {
    std::vector<double> values(EstimatedReflectance::count);
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double u = (EstimatedReflectance::wavelength(i) - 550) / 150;
        const double ratio = std::exp(std::clamp(powers[0] + powers[1] * u + powers[2] * u * u, -12.0, 8.0));
        values[i] = 1 / (1 + ratio + std::sqrt(ratio * (ratio + 2)));  // Kubelka–Munk's thick layer
    }
    return values;
}

Eigen::Vector3d vector_of(const Lab& lab) {
    return {lab.L, lab.a, lab.b};
}

// Damped Gauss–Newton in CIELAB; the best that was met.
Powers find_powers(const Lab& wanted) {
    Powers powers(-1, -1, 0);
    double best = (vector_of(lab_of_bands(reflectance_of(powers))) - vector_of(wanted)).squaredNorm();
    double damping = 0.1;
    constexpr int steps = 40;
    constexpr double close = 1e-10;
    for (int step = 0; step < steps && best > close; ++step) {
        const Eigen::Vector3d here = vector_of(lab_of_bands(reflectance_of(powers)));
        Eigen::Matrix3d slope;
        for (int k = 0; k < 3; ++k) {
            Powers moved_powers = powers;
            moved_powers[k] += 1e-4;
            slope.col(k) = (vector_of(lab_of_bands(reflectance_of(moved_powers))) - here) / 1e-4;
        }
        const Eigen::Matrix3d normal = slope.transpose() * slope + damping * Eigen::Matrix3d::Identity();
        const Powers next =
            powers + Powers(normal.ldlt().solve(slope.transpose() * (vector_of(wanted) - here)));
        const double miss = (vector_of(lab_of_bands(reflectance_of(next))) - vector_of(wanted)).squaredNorm();
        if (miss < best) {
            best = miss, powers = next;
            damping *= 0.3;
        } else {
            damping = std::max(damping, 1e-6) * 10;
        }
    }
    return powers;
}

}  // namespace

EstimatedReflectance::EstimatedReflectance(const Lab& lab) : values_(reflectance_of(find_powers(lab))) {
    const Lab reached = lab_of_bands(values_);
    missed_ = {lab.L - reached.L, lab.a - reached.a, lab.b - reached.b};
}

Lab EstimatedReflectance::lab_of(const std::vector<double>& reflectance) const {
    const Lab lab = lab_of_bands(reflectance);
    return {lab.L + missed_.L, lab.a + missed_.a, lab.b + missed_.b};
}

}  // namespace tonemend
