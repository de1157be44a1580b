#include "calibrate/preflight/kept_warnings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "colour/chromaticity.h"

namespace tonemend {
namespace {

constexpr const char* anew = "calibrate anew with 'tonemend calibrate'";

void warn_of_camera(const Frame& frame, const KeptCalibration& kept, std::vector<Warning>& warnings) {
    const std::string &now = frame.facts.camera, &then = kept.picture.facts.camera;
    if (now.empty() || then.empty() || now == then) return;
    warnings.push_back(
        {"calibration-other-camera",
         fmt::format("the calibration was made with the camera '{}', the picture with '{}'; {}", then, now,
                     anew),
         true});
}

double largest_difference(const Matrix3& a, const Matrix3& b) {
    double largest = 0;
    for (std::size_t row = 0; row < 3; ++row)
        for (std::size_t column = 0; column < 3; ++column)
            largest = std::max(largest, std::abs(a.m[row][column] - b.m[row][column]));
    return largest;
}

void warn_of_other_encoding(const Frame& frame, const KeptCalibration& kept, std::vector<Warning>& warnings) {
    const ColourEncoding &now = frame.encoding, &then = kept.picture.encoding;
    // More than the rounding of any profile.
    constexpr double same = 2e-3;
    const double difference = largest_difference(now.to_xyz_d50, then.to_xyz_d50);
    if (difference <= same && frame.facts.raw == kept.picture.facts.raw) return;
    warnings.push_back(
        {"calibration-other-encoding",
         fmt::format(
             "the calibration was made on '{}', the picture is '{}' (matrices differ by {:.3f}); save "
             "both from the camera in the same way, or {}",
             then.description, now.description, difference, anew),
         true});
}

void warn_of_other_light(const Frame& frame, const Calibration& calibration, const KeptCalibration& kept,
                         std::vector<Warning>& warnings) {
    // A camera that balances white by itself does not tell.
    if (!frame.encoding.camera_native || !kept.picture.encoding.camera_native) return;
    if (calibration.white.Y <= 0 || kept.fit.white.Y <= 0) return;
    const Ucs1976 now = to_ucs1976(calibration.white), then = to_ucs1976(kept.fit.white);
    const double distance = std::hypot(now.u - then.u, now.v - then.v);
    constexpr double same_lamp = 0.006;  // about 300 K at 5000 K (common practice, no source)
    if (distance <= same_lamp) return;
    warnings.push_back(
        {"calibration-other-light",
         fmt::format("the light is {:.3f} in u′v′ from that of the calibration (one lamp keeps "
                     "within {:.3f}); use the lamp of the calibration, or {}",
                     distance, same_lamp, anew),
         false});
}

void warn_of_stated_light(const CalibrationInputs& inputs, const KeptCalibration& kept,
                          std::vector<Warning>& warnings) {
    const auto& then = kept.fit.characterisation.light_kelvin;
    if (!inputs.light || !then) return;
    // In millionths of 1/K a step is as large to a camera under any lamp; 10 are 250 K at 5000 K (common
    // practice, no source).
    constexpr double same_lamp = 10;
    if (std::abs(1e6 / inputs.light->kelvin - 1e6 / *then) <= same_lamp) return;
    warnings.push_back(
        {"calibration-other-light",
         fmt::format("the light is stated as {}, and the calibration was made under {:.0f} K; use the "
                     "lamp of the calibration, or {}",
                     inputs.light->text, *then, anew),
         false});
}

void warn_of_other_steps(const Calibration& calibration, const KeptCalibration& kept,
                         std::vector<Warning>& warnings) {
    const ToneCurve &now = calibration.curves[1], &then = kept.fit.curves[1];
    if (now.kind() == then.kind()) return;
    warnings.push_back(
        {"calibration-other-steps",
         fmt::format("the calibration's card showed {} grey steps, this picture's {}, so tones are not bent "
                     "alike; use the same card as then, or {}",
                     then.points().size(), now.points().size(), anew),
         false});
}

void warn_of_other_size(const Frame& frame, const Calibration& calibration, const KeptCalibration& kept,
                        std::vector<Warning>& warnings) {
    if (!kept.fit.flat_field || calibration.flat_field) return;
    const FlatField& field = *kept.fit.flat_field;
    warnings.push_back(
        {"calibration-other-size",
         fmt::format("the calibration evens out pictures of {} × {} pixels and this one has {} "
                     "× {}, so its light is as it fell; take it as large as the calibration's, "
                     "or give a flat picture of its own",
                     field.width, field.height, frame.width, frame.height),
         false});
}

void warn_of_chart(const KeptCalibration& kept, std::vector<Warning>& warnings) {
    const ChartVerdict verdict = judge_chart(kept.chart);
    if (verdict.state == ChartState::expired)
        warnings.push_back(
            {"calibration-expired",
             fmt::format("the calibration has expired: {} (checked {}); check lamp and camera, or {}",
                         verdict.why, kept.chart.points.back().when, anew),
             true});
    if (verdict.state == ChartState::drifting)
        warnings.push_back(
            {"calibration-drifts",
             fmt::format("the calibration drifts: {} (checked {}); check again, and {} if it stays so",
                         verdict.why, kept.chart.points.back().when, anew),
             false});
}

}  // namespace

std::vector<Warning> warn_of_kept(const Frame& frame, const Calibration& calibration,
                                  const CalibrationInputs& inputs) {
    const KeptCalibration& kept = *inputs.kept;
    std::vector<Warning> warnings;
    warn_of_chart(kept, warnings);
    warn_of_camera(frame, kept, warnings);
    warn_of_other_encoding(frame, kept, warnings);
    warn_of_other_light(frame, calibration, kept, warnings);
    warn_of_stated_light(inputs, kept, warnings);
    warn_of_other_steps(calibration, kept, warnings);
    warn_of_other_size(frame, calibration, kept, warnings);
    return warnings;
}

}  // namespace tonemend
