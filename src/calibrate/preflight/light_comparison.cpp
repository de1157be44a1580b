#include "calibrate/preflight/light_comparison.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "calibrate/preflight/exposure.h"
#include "colour/chromaticity.h"
#include "colour/lab.h"

namespace tonemend {
namespace {

constexpr double most_shift = 1.5;       // C*ab at L* 50
constexpr double most_exposure = 1.10;   // ratio
constexpr double middle_grey = 0.18419;  // Y of L* 50

// The second white as a grey of L* 50 under the first.
double shift_between(const XYZ& first, const XYZ& second) {
    if (first.Y <= 0 || second.Y <= 0) return 0;
    const double scale = middle_grey / second.Y;
    const Lab lab = to_lab({scale * second.X, scale * second.Y, scale * second.Z}, white_point(first));
    return std::hypot(lab.a, lab.b);
}

double ratio(double a, double b) {
    return a > 0 && b > 0 ? std::max(a / b, b / a) : 1;
}

}  // namespace

PictureLight light_of(const Frame& frame, const Calibration& calibration) {
    PictureLight light;
    light.white = calibration.white;
    light.exposure = recorded_white(calibration);
    const CaptureFacts& facts = frame.facts;
    light.raw = facts.raw;
    if (facts.exposure_seconds && facts.iso && facts.f_number && *facts.f_number > 0)
        light.set_exposure = *facts.exposure_seconds * *facts.iso / (*facts.f_number * *facts.f_number);
    light.balance_automatic = facts.white_balance_automatic.value_or(false);
    return light;
}

std::vector<Warning> compare_light(const PictureLight& before, const PictureLight& after) {
    std::vector<Warning> warnings;
    if (before.raw != after.raw) return warnings;
    const double shift = shift_between(before.white, after.white);
    if (shift > most_shift) {
        const bool automatic = before.balance_automatic || after.balance_automatic;
        warnings.push_back(
            {"light-changed",
             fmt::format("the light, or the camera's white balance, differs by C* {:.1f} between the "
                         "two pictures; {}use one light for both",
                         shift, automatic ? "set the white balance by hand, and " : "lock both: "),
             false});
    }
    const double recorded = ratio(before.exposure, after.exposure);
    const double set =
        before.set_exposure && after.set_exposure ? ratio(*before.set_exposure, *after.set_exposure) : 1;
    if (std::max(recorded, set) > most_exposure) {
        warnings.push_back(
            {"exposure-differs",
             fmt::format("the two pictures are exposed differently, by a factor of {:.2f}; set the "
                         "exposure by hand and keep it, and leave the lamp where it is",
                         std::max(recorded, set)),
             false});
    }
    return warnings;
}

}  // namespace tonemend
