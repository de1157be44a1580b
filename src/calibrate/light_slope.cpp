#include "calibrate/light_slope.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "calibrate/homography.h"

namespace tonemend {
namespace {

constexpr double usual_change =
    0.03;  // of a shop's light across a picture, one standard deviation; common practice, no source
constexpr std::size_t least_spots = 8;
constexpr double most_spot_pixels = 2500;

double usual_slope(const Frame& frame) {
    return usual_change / std::max(frame.width, frame.height);
}

struct Spot {
    double x, y, brightness;
};

// A rectangle of bare paper in sheet millimetres, as a region of the picture; its middle part where it is
// larger than a mean needs.
Region on_picture(const FoundCard& found, double x, double y, double width, double height) {
    Region region;
    for (const Point corner :
         {Point{x, y}, Point{x + width, y}, Point{x + width, y + height}, Point{x, y + height}}) {
        region.corners.push_back(map_point(found.sheet_to_picture, corner));
    }
    const double scale = std::sqrt(most_spot_pixels / area(region));
    if (scale >= 1) return region;
    Point middle;
    for (const Point& corner : region.corners) middle.x += corner.x / 4, middle.y += corner.y / 4;
    for (Point& corner : region.corners) {
        corner = {middle.x + scale * (corner.x - middle.x), middle.y + scale * (corner.y - middle.y)};
    }
    return region;
}

// The paper left and right of the window between the markers, and the margin above and below: nothing is
// printed there.
std::vector<Region> bare_paper(const FoundCard& found) {
    const CardFrame& sheet = found.frame;
    const Point top_left = marker_corner(sheet, 0), bottom_right = marker_corner(sheet, 2);
    const double inset = 1.5, side = sheet.marker_side;
    std::vector<Region> regions;
    const double first = top_left.y + side + inset, last = bottom_right.y - inset;
    const double height = (last - first) / 4;
    const double margin = top_left.y, width = (sheet.sheet_width - 2 * inset) / 4;
    for (int i = 0; i < 4; ++i) {
        for (const double x : {top_left.x, bottom_right.x}) {
            regions.push_back(on_picture(found, x + inset, first + i * height, side - 2 * inset, height));
        }
        for (const double y : {inset, sheet.sheet_height - margin + inset}) {
            regions.push_back(on_picture(found, inset + i * width, y, width, margin - 2 * inset));
        }
    }
    return regions;
}

std::vector<Spot> read_spots(const Frame& frame, const FoundCard& found) {
    std::vector<Spot> spots;
    for (const Region& region : bare_paper(found)) {
        if (!lies_inside(region, frame.width, frame.height)) continue;
        const PatchReading reading = read_area(frame, region);
        if (reading.pixels < 100 || reading.clipped_share() > 0.02) continue;
        Spot spot{0, 0, reading.mean[0] + reading.mean[1] + reading.mean[2]};
        for (const Point& corner : region.corners) spot.x += corner.x / 4, spot.y += corner.y / 4;
        spots.push_back(spot);
    }
    return spots;
}

struct Plane {
    LightSlope slope;
    std::vector<double> residuals;  // relative
};

Plane fit_plane(const std::vector<Spot>& spots) {
    const auto n = static_cast<Eigen::Index>(spots.size());
    double mx = 0, my = 0;
    for (const Spot& spot : spots)
        mx += spot.x / static_cast<double>(n), my += spot.y / static_cast<double>(n);
    Eigen::MatrixXd design(n, 3);
    Eigen::VectorXd brightness(n);
    for (Eigen::Index i = 0; i < n; ++i) {
        const Spot& spot = spots[static_cast<std::size_t>(i)];
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
void drop_stained(std::vector<Spot>& spots, const std::vector<double>& residuals) {
    std::vector<double> sizes;
    for (const double residual : residuals) sizes.push_back(std::abs(residual));
    const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2);
    std::nth_element(sizes.begin(), middle, sizes.end());
    const double limit = std::max(4 * 1.4826 * *middle, 1e-3);
    std::vector<Spot> kept;
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
                          const std::vector<PatchReading>& patches) {
    std::vector<Spot> spots = read_spots(frame, found);
    if (spots.size() >= least_spots) drop_stained(spots, fit_plane(spots).residuals);
    if (spots.size() < least_spots) return light_on_patches(frame, patches);
    return tempered(fit_plane(spots).slope, usual_slope(frame));
}

}  // namespace tonemend
