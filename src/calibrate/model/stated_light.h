#pragma once

#include <optional>
#include <string>

#include "colour/spectrum.h"

namespace tonemend {

/// What makes the light: two lamps of one colour temperature, one a glowing body or the sky, the other a
/// white LED, show a camera different woods.
enum class LampFamily { thermal, led };

/// The light of a picture, as its user states it or as the camera's own white tells.
struct StatedLight {
    std::string text;                  ///< for people
    double kelvin = 0;                 ///< correlated colour temperature
    std::optional<LampFamily> family;  ///< absent when only the temperature is known
    Spectrum power;                    ///< relative; under it, patches of known reflectance are recomputed
};

/// Reads "2700" or "2700K" (any lamp of that colour temperature, 2000 to 10 000 K), "CIE-A", "CIE-D50",
/// "CIE-D65" and their like (a CIE illuminant), "planckian:2856", "daylight:5500" (4000 to 25 000 K) or
/// "led:3000" (2500 to 7000 K). Throws InputError that says so.
StatedLight parse_light(const std::string& text);

/// A light of which only the colour temperature is known: its spectrum is daylight from 4500 K, a Planckian
/// radiator below.
StatedLight light_of_temperature(double kelvin);

}  // namespace tonemend
