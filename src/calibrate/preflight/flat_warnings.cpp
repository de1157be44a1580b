#include "calibrate/preflight/flat_warnings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "calibrate/flat/even_out_card.h"

namespace tonemend {
namespace {

// Of brightness over the picture's long side.
constexpr double slope_worth_saying = 0.02, slope_unfit = 0.06;
// Of the card's light for its exposure. Cameras write shutter and aperture rounded, to some 5 % (common
// practice, no source).
constexpr double light_worth_saying = 0.15;

void warn_of_slope(const Frame& frame, Calibration& calibration) {
    const LightSlope& slope = calibration.light;
    const double side = std::max(frame.width, frame.height);
    const double steepness = std::hypot(slope.x, slope.y);
    if (steepness * side < slope_worth_saying || steepness < 4 * slope.u) return;
    calibration.warnings.push_back(
        {"lamp-moved",
         fmt::format(
             "after evening out, the paper beside the card still changes by {:.1f} % across the picture: "
             "lamp, camera or a shadow is not where it was; take the flat picture again with the lamp as "
             "it stands",
             100 * steepness * side),
         steepness * side > slope_unfit});
}

std::optional<double> light_for_exposure(const Frame& frame, const Calibration& calibration) {
    const CaptureFacts& facts = frame.facts;
    if (!facts.exposure_seconds || !facts.f_number || !facts.iso) return std::nullopt;
    return *facts.f_number * *facts.f_number /
           (*facts.exposure_seconds * *facts.iso * calibration.curves[1].gain());
}

void warn_of_brightness(const Frame& frame, Calibration& calibration) {
    const auto present = light_for_exposure(frame, calibration);
    const auto& before = calibration.flat_field->card_light;
    if (!present || !before) return;
    const double change = *present / *before - 1;
    if (!(std::abs(std::log1p(change)) > light_worth_saying)) return;
    calibration.warnings.push_back(
        {"lamp-moved",
         fmt::format(
             "the card is {:.0f} % {} for its exposure than when the light was evened out: the lamp has "
             "moved or changed; take the flat picture again with the lamp as it stands",
             100 * std::abs(change), change > 0 ? "lighter" : "darker"),
         false});
}

template <typename Value>
bool differ(const std::optional<Value>& a, const std::optional<Value>& b) {
    return a && b && *a != *b;
}

bool differ_by_share(const std::optional<double>& a, const std::optional<double>& b) {
    return a && b && std::abs(std::log(*a / *b)) > 0.02;
}

void warn_of_facts(const Frame& frame, Calibration& calibration) {
    const FlatField& field = *calibration.flat_field;
    const CaptureFacts &flat = field.facts, &here = frame.facts;
    std::string what;
    const auto add = [&what](bool differs, const char* words) {
        if (differs) what += (what.empty() ? "" : ", ") + std::string(words);
    };
    const bool other_file = flat.raw != here.raw;
    const bool other_camera = !flat.camera.empty() && !here.camera.empty() && flat.camera != here.camera;
    add(other_camera, "camera");
    add(other_file, "kind of file (raw or not)");
    add(!other_file && field.encoding != frame.encoding.description, "colour profile");
    add(differ_by_share(flat.f_number, here.f_number), "aperture");
    add(differ(flat.white_balance_automatic, here.white_balance_automatic), "white balance");
    if (field.source == FlatSource::card_places) {
        add(differ_by_share(flat.exposure_seconds, here.exposure_seconds), "shutter time");
        add(differ_by_share(flat.iso, here.iso), "ISO");
    }
    if (what.empty()) return;
    calibration.warnings.push_back(
        {"flat-differs",
         fmt::format(
             "the flat picture has another {} than this one; take both with the same camera, lens and "
             "settings",
             what),
         other_file || other_camera});
}

}  // namespace

void warn_of_flat_field(const Frame& frame, Calibration& calibration, const CalibrationInputs& inputs) {
    if (!calibration.flat_field) return;
    warn_of_slope(frame, calibration);
    if (inputs.flat_field) warn_of_brightness(frame, calibration);
    warn_of_facts(frame, calibration);
}

}  // namespace tonemend
