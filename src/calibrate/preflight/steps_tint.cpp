#include "calibrate/preflight/steps_tint.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "calibrate/tone/steps.h"
#include "colour/lab.h"

namespace tonemend {
namespace {

constexpr double tint_worth_saying = 1.2;   // C*ab
constexpr double usual_black_level = 0.01;  // of white

struct StepLight {
    double seen, truth;  // light by green's curve; as stated
};

// What is left of each step's light, relative, after one gain and the small offset that a black level leaves
// where the gain is not 1. Errors are relative to the light.
std::vector<double> ratios_to_gain(const std::vector<StepLight>& steps) {
    double ones = 0, inverses = 0, squares = 0, ratios = 0, ratio_inverses = 0;
    for (const auto& [seen, truth] : steps) {
        ones += 1, inverses += 1 / truth, squares += 1 / (truth * truth);
        ratios += seen / truth, ratio_inverses += seen / (truth * truth);
    }
    const double determinant = ones * squares - inverses * inverses;
    double offset = determinant > 0 ? (ones * ratio_inverses - inverses * ratios) / determinant : 0;
    const double most = usual_black_level * std::abs(ratios / ones - 1);
    offset = std::clamp(offset, -most, most);
    const double gain = (ratios - offset * inverses) / ones;
    std::vector<double> result;
    for (const auto& [seen, truth] : steps) result.push_back((seen - offset) / (gain * truth));
    return result;
}

}  // namespace

std::optional<double> tint_of_steps(const Frame& frame, const Calibration& calibration) {
    const ToneCurve& green = calibration.curves[1];
    if (frame.facts.raw || green.kind() != CurveKind::monotone) return std::nullopt;
    const Matrix3 to_rgb = inverse(frame.encoding.to_xyz_d50);
    std::array<std::vector<StepLight>, 3> steps;
    std::vector<double> lights;
    for (const PatchReading& reading : calibration.patches) {
        if (!serves_as_step(reading)) continue;
        const XYZ xyz = to_xyz(reading.patch.lab, d50_icc);
        const Vector3 truth = to_rgb * Vector3{xyz.X, xyz.Y, xyz.Z};
        if (*std::min_element(truth.begin(), truth.end()) < black_truth) continue;
        for (std::size_t c = 0; c < 3; ++c) steps[c].push_back({green(reading.mean[c]), truth[c]});
        lights.push_back(xyz.Y);
    }
    if (lights.size() < 6) return std::nullopt;
    std::array<std::vector<double>, 3> ratios;
    for (std::size_t c = 0; c < 3; ++c) ratios[c] = ratios_to_gain(steps[c]);
    double most = 0;
    for (std::size_t i = 0; i < lights.size(); ++i) {
        const Vector3 rgb{lights[i] * ratios[0][i], lights[i] * ratios[1][i], lights[i] * ratios[2][i]};
        const Vector3 xyz = frame.encoding.to_xyz_d50 * rgb;
        const Lab lab = to_lab({xyz[0], xyz[1], xyz[2]}, d50_icc);
        most = std::max(most, std::hypot(lab.a, lab.b));
    }
    return most;
}

std::optional<Warning> warn_of_tint(const Frame& frame, const Calibration& calibration) {
    const auto tint = tint_of_steps(frame, calibration);
    if (!tint || *tint < tint_worth_saying) return std::nullopt;
    return Warning{
        "steps-tinted",
        fmt::format("the camera tints light and dark greys differently, by C* {:.1f}, which the card "
                    "cannot undo for colours; choose its neutral or standard picture style, or use raw",
                    *tint),
        false};
}

}  // namespace tonemend
