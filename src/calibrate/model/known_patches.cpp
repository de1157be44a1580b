#include "calibrate/model/known_patches.h"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>

#include "calibrate/flat/paper_spots.h"
#include "calibrate/model/reference_spectra.h"
#include "calibrate/tone/steps.h"
#include "colour/adaptation.h"
#include "colour/integrate.h"

namespace tonemend {
namespace {

// Of a patch's stated CIELAB, each axis: an instrument's repeatability and the patch's wear (common practice,
// no source).
constexpr double stated_u = 0.15;
// Of the tone curve between the card's steps, relative.
constexpr double between_steps_u = 0.003;

// Wood, bare or stained, reflects more and more from blue to red.
bool rises_like_wood(const Spectrum& reflectance) {
    double up = 0, down = 0;
    for (double nm = 430; nm < 680; nm += 10) {
        const double change = reflectance.at(nm + 10) - reflectance.at(nm);
        (change > 0 ? up : down) += std::abs(change);
    }
    return down < 0.03 * up;
}

Eigen::Matrix3d reading_covariance(const Calibration& calibration, const PatchReading& reading,
                                   const Vector3& rgb) {
    const auto lab = [&](const Vector3& value) {
        const Lab there = to_lab(calibration.to_xyz(value), d50_icc);
        return Eigen::Vector3d{there.L, there.a, there.b};
    };
    Eigen::Matrix3d covariance = Eigen::Matrix3d::Zero();
    for (std::size_t c = 0; c < 3; ++c) {
        const double relative = std::hypot(between_steps_u, calibration.uncertainty.step);
        const double u =
            std::hypot(relative * rgb[c], calibration.curves[c].slope(reading.mean[c]) * reading.mean_u[c]);
        Vector3 up = rgb, down = rgb;
        up[c] += u, down[c] -= u;
        const Eigen::Vector3d change = (lab(up) - lab(down)) / 2;
        covariance += change * change.transpose();
    }
    return covariance;
}

// Where on the card the tone curve has its value for `light` (of green): between the middles of the two steps
// beside it.
Point place_of_steps(const Calibration& calibration, double light) {
    double darker = -1, brighter = 1e9;
    Point below, above;
    for (const PatchReading& reading : calibration.patches) {
        if (!reading.patch.neutral() || reading.pixels == 0) continue;
        const double step = calibration.light_of(reading)[1];
        if (step <= light && step > darker) darker = step, below = middle_of(reading.area);
        if (step > light && step < brighter) brighter = step, above = middle_of(reading.area);
    }
    if (darker < 0) return above;
    if (brighter > 1e8) return below;
    const double at = (light - darker) / (brighter - darker);
    return {(1 - at) * below.x + at * above.x, (1 - at) * below.y + at * above.y};
}

// The light at the patch is not the light at the steps when it slopes across the card.
Eigen::Matrix<double, 3, 2> change_by_slope(const Calibration& calibration, const PatchReading& reading,
                                            const Vector3& rgb) {
    Eigen::Matrix<double, 3, 2> change = Eigen::Matrix<double, 3, 2>::Zero();
    if (calibration.flat_field) return change;
    const Point patch = middle_of(reading.area), steps = place_of_steps(calibration, rgb[1]);
    const LightSlope& slope = calibration.light;
    const std::array<double, 2> relative{std::max(std::abs(slope.x), slope.u) * (patch.x - steps.x),
                                         std::max(std::abs(slope.y), slope.u) * (patch.y - steps.y)};
    const Lab here = to_lab(calibration.to_xyz(rgb), d50_icc);
    for (Eigen::Index k = 0; k < 2; ++k) {
        const double by = 1 + relative[static_cast<std::size_t>(k)];
        const Lab there = to_lab(calibration.to_xyz({by * rgb[0], by * rgb[1], by * rgb[2]}), d50_icc);
        change.col(k) << there.L - here.L, there.a - here.a, there.b - here.b;
    }
    return change;
}

}  // namespace

Lab lab_under(const Spectrum& reflectance, const StatedLight& light) {
    static const Observer observer = read_observer_1931();
    const Weights weights = weigh(light.power, observer);
    const Matrix3 to_d50 = bradford(white_point(weights), d50_icc);
    return to_lab(transform(to_d50, integrate(reflectance, weights)), d50_icc);
}

KnownPatches known_patches(const Calibration& calibration, const FormPrior& prior,
                           const std::optional<StatedLight>& light) {
    KnownPatches known;
    // All or none: one theta leads from what the camera sees to what is stated.
    const bool recomputed =
        light && std::all_of(calibration.patches.begin(), calibration.patches.end(), [](const auto& reading) {
            return reading.patch.neutral() || !reading.patch.reflectance.empty();
        });
    known.stated = !recomputed ? StatedFor::d50 : light->family ? StatedFor::family : StatedFor::temperature;
    for (const PatchReading& reading : calibration.patches) {
        if (reading.patch.neutral() || reading.pixels == 0 || reading.clipped_share() > clipped_share_allowed)
            continue;
        Vector3 rgb{};
        rgb = calibration.light_of(reading);
        KnownPatch patch;
        patch.name = reading.patch.name;
        patch.working = calibration.characterisation.model.to_working * rgb;
        patch.lab = recomputed ? lab_under(reading.patch.reflectance, *light) : reading.patch.lab;
        const bool wood = !reading.patch.reflectance.empty() && rises_like_wood(reading.patch.reflectance);
        patch.covariance = reading_covariance(calibration, reading, rgb) +
                           (wood ? prior.residual[static_cast<std::size_t>(RepairColourants::earth)]
                                 : prior.residual_other) +
                           stated_u * stated_u * Eigen::Matrix3d::Identity();
        patch.by_slope = change_by_slope(calibration, reading, rgb);
        known.patches.push_back(std::move(patch));
    }
    return known;
}

}  // namespace tonemend
