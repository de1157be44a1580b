#include "calibrate/flat/light_slope.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "calibrate/flat/paper_spots.h"

namespace tonemend {
namespace {

constexpr double usual_change =
    0.03;  // of a shop's light across a picture, one standard deviation; common practice, no source
constexpr std::size_t least_spots = 8;

double usual_slope(const Frame& frame) {
    return usual_change / std::max(frame.width, frame.height);
}

struct PaperLight {
    double x, y, brightness;
};

std::vector<PaperLight> read_spots(const Frame& frame, const FoundCard& found, const EvenOut& even_out) {
    std::vector<PaperLight> spots;
    for (const PatchReading& reading : read_paper(frame, found)) {
        const Point at = middle_of(reading.area);
        const Vector3 light = even_out ? even_out(reading.mean, at) : reading.mean;
        spots.push_back({at.x, at.y, light[0] + light[1] + light[2]});
    }
    return spots;
}

struct Plane {
    LightSlope slope;
    std::vector<double> residuals;  // relative
};

Plane fit_plane(const std::vector<PaperLight>& spots) {
    const auto n = static_cast<Eigen::Index>(spots.size());
    double mx = 0, my = 0;
    for (const PaperLight& spot : spots)
        mx += spot.x / static_cast<double>(n), my += spot.y / static_cast<double>(n);
    Eigen::MatrixXd design(n, 3);
    Eigen::VectorXd brightness(n);
    for (Eigen::Index i = 0; i < n; ++i) {
        const PaperLight& spot = spots[static_cast<std::size_t>(i)];
        design.row(i) << 1.0, spot.x - mx, spot.y - my;
        brightness[i] = spot.brightness;
    }
    const Eigen::Vector3d plane = design.colPivHouseholderQr().solve(brightness);
    const Eigen::VectorXd residual = (brightness - design * plane) / plane[0];
    const Eigen::Matrix3d covariance =
        (design.transpose() * design).inverse() * residual.squaredNorm() / static_cast<double>(n - 3);
    Plane result;
    result.slope = {plane[1] / plane[0], plane[2] / plane[0],
                    std::sqrt(std::max(covariance(1, 1), covariance(2, 2)))};
    result.residuals.assign(residual.begin(), residual.end());
    return result;
}

// Drops the spots that stand off the plane by four robust standard deviations.
void drop_stained(std::vector<PaperLight>& spots, const std::vector<double>& residuals) {
    std::vector<double> sizes;
    for (const double residual : residuals) sizes.push_back(std::abs(residual));
    const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2);
    std::nth_element(sizes.begin(), middle, sizes.end());
    const double limit = std::max(4 * 1.4826 * *middle, 1e-3);
    std::vector<PaperLight> kept;
    for (std::size_t i = 0; i < spots.size(); ++i) {
        if (std::abs(residuals[i]) <= limit) kept.push_back(spots[i]);
    }
    spots = std::move(kept);
}

// What is seen, weighed against what is usual: a slope that is only noise comes out small.
LightSlope tempered(const LightSlope& seen, double usual) {
    const double trust = usual * usual / (usual * usual + seen.u * seen.u);
    return {trust * seen.x, trust * seen.y, seen.u * std::sqrt(trust)};
}

}  // namespace

LightSlope light_on_patches(const Frame& frame, const std::vector<PatchReading>& patches) {
    LightSlope light;
    double weights = 0;
    for (const PatchReading& reading : patches) {
        if (reading.pixels == 0 || reading.slope_u <= 0) continue;
        const double weight = 1.0 / (reading.slope_u * reading.slope_u);
        light.x += weight * reading.slope_x, light.y += weight * reading.slope_y, weights += weight;
    }
    const double usual = usual_slope(frame);
    if (weights <= 0) return {0, 0, usual};
    // Neighbouring pixels are tied, so the plain standard error is doubled.
    return tempered({light.x / weights, light.y / weights, 2.0 / std::sqrt(weights)}, usual);
}

LightSlope light_on_paper(const Frame& frame, const FoundCard& found,
                          const std::vector<PatchReading>& patches, const EvenOut& even_out) {
    std::vector<PaperLight> spots = read_spots(frame, found, even_out);
    if (spots.size() >= least_spots) drop_stained(spots, fit_plane(spots).residuals);
    if (spots.size() < least_spots) return light_on_patches(frame, patches);
    return tempered(fit_plane(spots).slope, usual_slope(frame));
}

}  // namespace tonemend
