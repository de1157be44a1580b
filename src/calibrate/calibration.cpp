#include "calibrate/calibration.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "calibrate/card_warnings.h"
#include "calibrate/steps.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

// Found on the practice bench (tests/measure/accuracy_study.cpp prints what they lead to).
constexpr double matrix_u_camera_profile = 0.010;
constexpr double contrast_u = 0.009, contrast_u_unknown_curve = 0.035;
constexpr double step_floor = 0.0015;  // relative: nominal values are never better known than this
constexpr double card_u =
    0.005;  // of the whole card, relative: print, wear, instrument (common practice, no source)
constexpr double exponent_unknown = 0.06;  // a styled picture read as sRGB without enough steps
constexpr double exponent_few_steps = 0.08;
constexpr double exponent_raw = 0.004;
constexpr double black_unknown = 0.004, black_unknown_raw = 0.0005;

double rms(const std::vector<double>& values) {
    if (values.empty()) return 0;
    const double sum = std::inner_product(values.begin(), values.end(), values.begin(), 0.0);
    return std::sqrt(sum / static_cast<double>(values.size()));
}

CalibrationUncertainty state_uncertainty(const Frame& frame, const Calibration& calibration,
                                         bool black_level_given) {
    CalibrationUncertainty u;
    u.matrix = matrix_u_camera_profile;
    const bool curve_known = frame.facts.raw || calibration.curves[1].kind() == CurveKind::monotone;
    u.contrast = curve_known ? contrast_u : contrast_u_unknown_curve;
    u.card = card_u;
    const ToneCurve& green = calibration.curves[1];
    std::vector<double> misses;
    for (const ToneCurve& curve : calibration.curves) {
        const auto errors = curve.leave_one_out();
        misses.insert(misses.end(), errors.begin(), errors.end());
    }
    switch (green.kind()) {
        case CurveKind::monotone:
            // Leaving a step out doubles the gap the curve has to bridge; a smooth curve's error grows with
            // the cube of the gap or faster, so an eighth of the miss is what remains with the step in place.
            u.step = std::hypot(step_floor, rms(misses) / 8.0);
            break;
        case CurveKind::offset_and_gain:
            u.step = std::hypot(step_floor, rms(misses) / 2.0);
            u.exponent = frame.facts.raw ? exponent_raw : exponent_few_steps;
            break;
        case CurveKind::gain:
            u.step = step_floor;
            u.exponent = frame.facts.raw ? exponent_raw : exponent_unknown;
            u.black = black_level_given ? 0.0 : frame.facts.raw ? black_unknown_raw : black_unknown;
            break;
    }
    return u;
}

std::string describe_curve(const Calibration& calibration, std::optional<double> black_level) {
    const ToneCurve& green = calibration.curves[1];
    const std::string given = black_level ? fmt::format(", black level {} as given", *black_level) : "";
    switch (green.kind()) {
        case CurveKind::monotone:
            return fmt::format("monotone curve a channel from {} neutral steps{}", green.points().size(),
                               given);
        case CurveKind::offset_and_gain:
            return fmt::format("offset and gain a channel from {} neutral steps{}", green.points().size(),
                               given);
        case CurveKind::gain:
            return "gain a channel from one neutral step" + (black_level ? given : ", black taken as 0");
    }
    return {};
}

XYZ white_of_light(const Frame& frame, const Calibration& calibration) {
    // What the uncorrected picture shows for the perfect diffuser: the inverse gain of each channel at the
    // brightest step.
    Vector3 white{};
    for (std::size_t c = 0; c < 3; ++c) {
        const CurvePoint& top = calibration.curves[c].points().back();
        white[c] = frame.encoding.native_balance[c] * (top.seen - calibration.curves[c].offset()) / top.truth;
    }
    const Vector3 xyz = calibration.to_xyz_d50 * white;
    return xyz[1] > 0 ? XYZ{xyz[0] / xyz[1], 1.0, xyz[2] / xyz[1]} : XYZ{};
}

}  // namespace

ChannelCurves Calibration::channel_curves() const {
    return {[curve = curves[0]](double v) { return curve(v); },
            [curve = curves[1]](double v) { return curve(v); },
            [curve = curves[2]](double v) { return curve(v); }};
}

XYZ Calibration::to_xyz(const Vector3& calibrated_rgb) const {
    const Vector3 xyz = to_xyz_d50 * calibrated_rgb;
    return {xyz[0], xyz[1], xyz[2]};
}

Calibration calibrate_on_card(const Frame& frame, const Card& card, const Quad& corners,
                              std::optional<double> black_level) {
    Calibration calibration;
    calibration.card_name = card.name;
    calibration.card_corners = corners;
    calibration.patches = read_patches(frame, card, corners);
    calibration.coding = coding_of(frame);
    calibration.to_xyz_d50 = frame.encoding.to_xyz_d50;
    calibration.curves = fit_curves(frame, calibration.patches, black_level);
    calibration.white = white_of_light(frame, calibration);
    calibration.light = light_on_patches(frame, calibration.patches);
    calibration.tone_curve = describe_curve(calibration, black_level);
    calibration.characterisation =
        fmt::format("{}, white from the card; coloured patches are not fitted", frame.encoding.description);
    calibration.uncertainty = state_uncertainty(frame, calibration, black_level.has_value());
    calibration.warnings = warn_of_card(frame, calibration);
    return calibration;
}

Calibration calibrate_on_card(const Frame& frame, const Card& card, const FoundCard& found,
                              std::optional<double> black_level) {
    Calibration calibration = calibrate_on_card(frame, card, found.window, black_level);
    calibration.light = light_on_paper(frame, found, calibration.patches);
    return calibration;
}

}  // namespace tonemend
