#include "calibrate/preflight/card_warnings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "calibrate/preflight/card_size.h"
#include "calibrate/preflight/colours_style.h"
#include "calibrate/preflight/exposure.h"
#include "calibrate/preflight/jpeg_traces.h"
#include "calibrate/preflight/light_temperature.h"
#include "calibrate/preflight/steps_tint.h"
#include "calibrate/tone/steps.h"

namespace tonemend {
namespace {

// At 75 the difference between two regions is off by 0.14 ΔE2000 (95th percentile 0.75), at 90 by 0.11
// (0.37): measured on practice pictures of grain.
constexpr int least_jpeg_quality = 85;

void warn_of_clipping(const Calibration& calibration, std::vector<Warning>& warnings) {
    std::string names;
    for (const PatchReading& reading : calibration.patches) {
        if (reading.patch.neutral() && reading.clipped_share() > clipped_share_allowed) {
            names += fmt::format("{}'{}'", names.empty() ? "" : ", ", reading.patch.name);
        }
    }
    if (names.empty()) return;
    warnings.push_back(
        {"card-clipped",
         fmt::format("card patch {} is clipped and was left out; expose so that the card's lightest patch is "
                     "below white and its darkest above black",
                     names),
         false});
}

void warn_of_texture(const Calibration& calibration, std::vector<Warning>& warnings) {
    for (const PatchReading& reading : calibration.patches) {
        if (!serves_as_step(reading)) continue;
        const double relative = reading.spread[1] / std::max(reading.mean[1], 0.02);
        if (relative > 0.25) {
            warnings.push_back(
                {"card-uneven",
                 fmt::format(
                     "card patch '{}' varies by {:.0f} % of its brightness; it should be one even grey: "
                     "choose the right --card, check its corners, clean it, keep shadows off it",
                     reading.patch.name, 100 * relative),
                 true});
            return;
        }
    }
}

void warn_of_steps(const Frame& frame, const Calibration& calibration, std::vector<Warning>& warnings) {
    if (frame.facts.raw) return;
    if (calibration.curves[1].kind() == CurveKind::monotone) return;
    const std::size_t steps = calibration.curves[1].points().size();
    const auto on_card = std::count_if(calibration.patches.begin(), calibration.patches.end(),
                                       [](const PatchReading& reading) { return reading.patch.neutral(); });
    if (on_card >= 6) {
        warnings.push_back({"tone-curve-unknown",
                            fmt::format("only {} of the card's {} neutral steps can be used, too few to show "
                                        "how this camera bends its "
                                        "tones; change the exposure so that none is clipped",
                                        steps, on_card),
                            false});
        return;
    }
    warnings.push_back(
        {"tone-curve-unknown",
         fmt::format(
             "{} neutral step{} cannot show how this camera bends its tones; use a card with six or more "
             "steps, or the camera's raw file",
             steps, steps == 1 ? "" : "s"),
         false});
}

void warn_of_encoding(const Frame& frame, std::vector<Warning>& warnings) {
    if (frame.encoding.assumed) {
        warnings.push_back({"profile-assumed",
                            "the file carries no colour profile, so its numbers are read as sRGB; save it "
                            "with its profile embedded, or use raw",
                            false});
    }
    if (frame.facts.jpeg_quality && *frame.facts.jpeg_quality < least_jpeg_quality) {
        warnings.push_back({"jpeg-strong",
                            fmt::format("JPEG quality is about {}; use quality 90 or more, PNG, TIFF or raw",
                                        *frame.facts.jpeg_quality),
                            false});
    } else if (const auto traces = warn_of_jpeg_traces(frame)) {
        warnings.push_back(*traces);
    }
    if (looks_shrunk(frame)) {
        warnings.push_back({"picture-shrunk",
                            fmt::format("a JPEG of only {} × {} pixels was probably shrunk or forwarded, "
                                        "which shifts colours; use the "
                                        "camera's own file",
                                        frame.width, frame.height),
                            false});
    }
    if (frame.facts.flash_fired.value_or(false)) {
        warnings.push_back(
            {"flash-fired",
             "the flash fired: it lights card and wood unevenly and from the camera; switch it off", false});
    }
}

// A warm light hides differences that daylight shows (common practice, no source, for the limit).
}  // namespace

std::vector<Warning> warn_of_card(const Frame& frame, const Calibration& calibration) {
    std::vector<Warning> warnings;
    warn_of_texture(calibration, warnings);
    warn_of_clipping(calibration, warnings);
    warn_of_steps(frame, calibration, warnings);
    const auto add = [&](const std::optional<Warning>& warning) {
        if (warning) warnings.push_back(*warning);
    };
    add(warn_of_underexposure(calibration));
    add(warn_of_card_size(calibration.patches));
    add(warn_of_tint(frame, calibration));
    add(warn_of_styled_colours(calibration));
    if (const auto kelvin = temperature_of_light(frame, calibration)) add(warn_of_temperature(*kelvin));
    warn_of_encoding(frame, warnings);
    return warnings;
}

}  // namespace tonemend
