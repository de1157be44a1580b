#include "calibrate/calibration.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "calibrate/flat/even_out_card.h"
#include "calibrate/keep/kept_calibration.h"
#include "calibrate/model/characterise.h"
#include "calibrate/model/read_samples.h"
#include "calibrate/preflight/card_focus.h"
#include "calibrate/preflight/card_frame_warnings.h"
#include "calibrate/preflight/card_warnings.h"
#include "calibrate/preflight/flat_warnings.h"
#include "calibrate/preflight/kept_warnings.h"
#include "calibrate/tone/steps.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

// Found on the practice bench (tests/measure/accuracy_study.cpp prints what they lead to).
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

// What is not known of a tone curve now was not known of it then.
Characterisation take_over(const KeptCalibration& kept, const Calibration& calibration,
                           const CalibrationInputs& inputs) {
    const Characterisation& own = calibration.characterisation;
    Characterisation characterisation = kept.fit.characterisation;
    if (inputs.colourants != kept.inputs.colourants) characterisation.unexplained = own.unexplained;
    if (calibration.curves[1].kind() != kept.fit.curves[1].kind())
        characterisation.contrast = std::max(characterisation.contrast, own.contrast);
    characterisation.description = fmt::format("of {}, calibrated on {}: {}", kept.made, kept.picture.name,
                                               characterisation.description);
    return characterisation;
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
    const Vector3 xyz = frame.encoding.to_xyz_d50 * white;
    return xyz[1] > 0 ? XYZ{xyz[0] / xyz[1], 1.0, xyz[2] / xyz[1]} : XYZ{};
}

void append(std::vector<Warning>& warnings, const std::vector<Warning>& more) {
    warnings.insert(warnings.end(), more.begin(), more.end());
}

// A card as it was read in a picture.
struct ReadCard {
    std::string name;
    Quad corners{};
    std::vector<PatchReading> patches;
    const FoundCard* found;   // null: in no frame
    const Card* description;  // null: the picture is not at hand
};

// The flat field that was kept with a calibration serves pictures of its size, unless another is given.
CalibrationInputs with_kept_field(const Frame& frame, CalibrationInputs inputs) {
    if (!inputs.kept || inputs.flat_samples || inputs.flat_field) return inputs;
    const auto& field = inputs.kept->fit.flat_field;
    if (field && field->width == frame.width && field->height == frame.height)
        inputs.flat_field = std::make_shared<const FlatField>(*field);
    return inputs;
}

Calibration calibrate(const Frame& frame, ReadCard card, const CalibrationInputs& given) {
    const CalibrationInputs inputs = with_kept_field(frame, given);
    const FoundCard* const found = card.found;
    Calibration calibration;
    calibration.stated = static_cast<const StatedFacts&>(inputs);
    calibration.card_name = std::move(card.name);
    calibration.card_corners = card.corners;
    calibration.patches = std::move(card.patches);
    calibration.coding = coding_of(frame);
    calibration.curves = fit_curves(frame, calibration.patches, inputs.black_level);
    even_out_card(frame, found, inputs, calibration);
    calibration.white = white_of_light(frame, calibration);
    calibration.light = found == nullptr
                            ? light_on_patches(frame, calibration.patches)
                            : light_on_paper(frame, *found, calibration.patches, even_light(calibration));
    calibration.tone_curve = describe_curve(calibration, inputs.black_level);
    calibration.uncertainty = state_uncertainty(frame, calibration, inputs.black_level.has_value());
    calibration.characterisation = characterise(frame, calibration, inputs);
    if (inputs.kept) {
        calibration.kept = inputs.kept;
        calibration.characterisation = take_over(*inputs.kept, calibration, inputs);
    }
    calibration.local = read_samples(frame, calibration, inputs.samples);
    calibration.warnings = warn_of_card(frame, calibration);
    warn_of_flat_field(frame, calibration, inputs);
    if (card.description != nullptr)
        if (const auto blur = warn_of_blur(frame, *card.description, card.corners))
            calibration.warnings.push_back(*blur);
    if (found != nullptr) append(calibration.warnings, warn_of_card_frame(frame, *found, calibration));
    append(calibration.warnings, warn_of_samples(calibration.local));
    if (inputs.kept) append(calibration.warnings, warn_of_kept(frame, calibration, inputs));
    return calibration;
}

}  // namespace

ChannelCurves Calibration::channel_curves() const {
    return {[curve = curves[0]](double v) { return curve(v); },
            [curve = curves[1]](double v) { return curve(v); },
            [curve = curves[2]](double v) { return curve(v); }};
}

Vector3 Calibration::light_of(const PatchReading& reading) const {
    Vector3 rgb{};
    for (std::size_t c = 0; c < 3; ++c) rgb[c] = curves[c](reading.mean[c]) / reading.light[c];
    return rgb;
}

Lab Calibration::lab(const Vector3& calibrated_rgb, SampleSide side) const {
    return local.correct(to_lab(to_xyz(calibrated_rgb), d50_icc), side);
}

Calibration calibrate_on_readings(const Frame& frame, const std::string& card_name,
                                  std::vector<PatchReading> patches, const CalibrationInputs& inputs) {
    return calibrate(frame, {card_name, {}, std::move(patches), nullptr, nullptr}, inputs);
}

Calibration calibrate_on_card(const Frame& frame, const Card& card, const Quad& corners,
                              const CalibrationInputs& inputs) {
    return calibrate(frame, {card.name, corners, read_patches(frame, card, corners), nullptr, &card}, inputs);
}

Calibration calibrate_on_card(const Frame& frame, const Card& card, const FoundCard& found,
                              const CalibrationInputs& inputs) {
    return calibrate(frame, {card.name, found.window, read_patches(frame, card, found.window), &found, &card},
                     inputs);
}

}  // namespace tonemend
