#include "measure/many_lights.h"

#include <fmt/format.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <filesystem>

#include "measure/lights_estimate.h"
#include "measure/uncertainty.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

constexpr std::size_t least_patches = 3;
constexpr double least_narrowing =
    1.15;  // of the camera's part of the interval; less is not worth a second picture
constexpr double well_lit_noise = 0.003;  // what a good flat field leaves
constexpr double most_shift_px = 2;
constexpr double to_95 = 1.959964;  // of a normal error (JCGM 100:2008, table G.1)

// dLab / dXYZ around a colour.
Eigen::Matrix3d lab_jacobian(const XYZ& xyz) {
    Eigen::Matrix3d jacobian;
    const Lab lab = to_lab(xyz, d50_icc);
    for (int column = 0; column < 3; ++column) {
        const double h = 1e-6;
        const XYZ there{xyz.X + (column == 0 ? h : 0), xyz.Y + (column == 1 ? h : 0),
                        xyz.Z + (column == 2 ? h : 0)};
        const Lab moved = to_lab(there, d50_icc);
        jacobian.col(column) = Eigen::Vector3d{moved.L - lab.L, moved.a - lab.a, moved.b - lab.b} / h;
    }
    return jacobian;
}

std::array<double, 3> widened(const std::array<double, 3>& u95, const XYZ& at,
                              const Eigen::Matrix3d& covariance) {
    const Eigen::Matrix3d jacobian = lab_jacobian(at);
    const Eigen::Matrix3d lab = jacobian * covariance * jacobian.transpose();
    std::array<double, 3> result{};
    for (std::size_t k = 0; k < 3; ++k) {
        const auto axis = static_cast<Eigen::Index>(k);
        result[k] = std::hypot(u95[k], to_95 * std::sqrt(std::max(lab(axis, axis), 0.0)));
    }
    return result;
}

// The same correction for ground and figure as for the mean: they are parts of one surface.
Lab corrected(const Lab& lab, const XYZ& mean_before, const XYZ& mean_now) {
    const XYZ xyz = to_xyz(lab, d50_icc);
    return to_lab({xyz.X * mean_now.X / mean_before.X, xyz.Y * mean_now.Y / mean_before.Y,
                   xyz.Z * mean_now.Z / mean_before.Z},
                  d50_icc);
}

void correct(Reading& reading, const XYZ& now) {
    const XYZ before = to_xyz(reading.lab, d50_icc);
    reading.ground = corrected(reading.ground, before, now);
    reading.figure = corrected(reading.figure, before, now);
    reading.lab = to_lab(now, d50_icc);
}

double worst_brightness(const SeenRegion& region) {
    double worst = 0;
    for (const LightNoise& noise : region.noise) worst = std::max(worst, noise.brightness);
    return worst;
}

SeenRegion well_lit(SeenRegion region) {
    for (LightNoise& noise : region.noise) noise.brightness = std::min(noise.brightness, well_lit_noise);
    return region;
}

Warning no_help(const ManyLightsOutcome& outcome) {
    std::string text = fmt::format(
        "the further light would bring the camera's part of the ± from {:.2f} to {:.2f}, so it is not used",
        outcome.camera_u95_alone, outcome.camera_u95_together);
    if (outcome.shift_px > most_shift_px)
        text += fmt::format("; the pictures lie {:.1f} pixels apart: use a stand and do not touch the camera",
                            outcome.shift_px);
    else if (outcome.camera_u95_possible * least_narrowing < outcome.camera_u95_alone)
        text += fmt::format(
            "; light that is even to 0.3 % (here {:.1f} %) would make it {:.2f}: give a flat field for each "
            "light",
            100 * outcome.light_noise, outcome.camera_u95_possible);
    else
        text += "; choose a light that is less like the first";
    return {"further-lights-no-help", text, false};
}

// The comparison with light one alone, but for what the camera's colours leave open.
PairUncertainty without_camera(Calibration calibration, const Comparison& comparison) {
    calibration.characterisation.doubt.clear();
    calibration.characterisation.unexplained = {};
    calibration.light = {};
    calibration.flat_field.reset();
    return propagate(calibration, comparison.original, comparison.repair);
}

void use(const LightsEstimate& estimate, const Calibration& calibration, Comparison& comparison) {
    PairUncertainty u = without_camera(calibration, comparison);
    u.original_u95 = widened(u.original_u95, estimate.original, estimate.original_covariance);
    u.repair_u95 = widened(u.repair_u95, estimate.repair, estimate.repair_covariance);
    u.difference_u95 = widened(u.difference_u95, estimate.repair, estimate.difference_covariance);
    u.de2000_u95 = std::hypot(u.de2000_u95, to_95 * estimate.de2000_u);
    correct(comparison.original, estimate.original);
    correct(comparison.repair, estimate.repair);
    conclude(comparison, u);
}

}  // namespace

Comparison compare_under_lights(const std::vector<PictureUnderLight>& pictures, const Region& original,
                                const Region& repair, const std::vector<std::vector<KnownSurface>>& cameras,
                                double tolerance) {
    const PictureUnderLight& first = pictures.front();
    const std::vector<KnownSurface> known = see_patches(pictures);
    if (known.size() < least_patches)
        throw InputError(fmt::format(
            "{}: further lights need {} coloured patches of known colour on the card, unclipped in every "
            "picture; "
            "this card shows {}: add stained samples of the wood to it, or leave the further lights out",
            first.frame->name, least_patches, known.size()));
    if (!first.calibration.local.empty())
        throw InputError(fmt::format(
            "{}: samples correct what one light shows: give either --sample or further lights, not both",
            first.frame->name));
    Comparison comparison = compare_regions(*first.frame, first.calibration, original, repair, tolerance);
    const SeenRegion o = see_region(pictures, comparison.original, "--original"),
                     r = see_region(pictures, comparison.repair, "--repair");
    const auto at_95 = [&](const SeenRegion& one, const SeenRegion& other, std::size_t lights) {
        return to_95 * estimate(cameras, known, one, other, lights).de2000_u;
    };
    const LightsEstimate together = estimate(cameras, known, o, r, pictures.size());
    ManyLightsOutcome outcome;
    for (const PictureUnderLight& picture : pictures) {
        outcome.lights.push_back(picture.light.text);
        outcome.pictures.push_back(std::filesystem::path(picture.frame->name).filename().string());
    }
    outcome.known_patches = known.size();
    outcome.camera_u95_alone = at_95(o, r, 1);
    outcome.camera_u95_together = to_95 * together.de2000_u;
    outcome.camera_u95_possible = at_95(well_lit(o), well_lit(r), pictures.size());
    outcome.light_noise = std::max(worst_brightness(o), worst_brightness(r));
    outcome.shift_px = std::max(o.shift_px, r.shift_px);
    outcome.used = outcome.shift_px <= most_shift_px &&
                   outcome.camera_u95_together * least_narrowing < outcome.camera_u95_alone;
    if (outcome.used)
        use(together, first.calibration, comparison);
    else
        comparison.warnings.push_back(no_help(outcome));
    comparison.many_lights = outcome;
    return comparison;
}

}  // namespace tonemend
