#include "calibrate/preflight/light_temperature.h"

#include <fmt/format.h>

#include "colour/adaptation.h"
#include "colour/cct.h"
#include "colour/rgb_space.h"

namespace tonemend {

std::optional<double> temperature_of_light(const Frame& frame, const Calibration& calibration) {
    if (calibration.characterisation.light_kelvin) return calibration.characterisation.light_kelvin;
    return temperature_of_white(frame, calibration);
}

std::optional<double> temperature_of_white(const Frame& frame, const Calibration& calibration) {
    if (!frame.facts.raw || calibration.white.Y <= 0) return std::nullopt;
    // The picture's white stands beside daylight's as D50 does in the connection space; back to D65 itself.
    const WhitePoint daylight = white_point(srgb.white);
    const XYZ white = transform(bradford(d50_icc, daylight), calibration.white);
    if (white.X <= 0 || white.Y <= 0 || white.Z <= 0) return std::nullopt;
    const auto temperature = correlated_colour_temperature(white_point(white));
    if (!temperature) return std::nullopt;
    return temperature->kelvin;
}

std::optional<Warning> warn_of_temperature(double kelvin) {
    if (kelvin >= warm_light_kelvin) return std::nullopt;
    return Warning{
        "light-warm",
        fmt::format("the light is warm, about {:.0f} K: a camera tells other colourants less well there, "
                    "and a match under it may part in daylight; use a daylight-like lamp of {:.0f} K or "
                    "more",
                    kelvin, warm_light_kelvin),
        false};
}

}  // namespace tonemend
