#pragma once

#include <optional>
#include <string>

#include "colour/adaptation.h"
#include "colour/lab.h"
#include "practice/bands.h"

namespace tonemend {

/// Relative power of a lamp on the bench's grid, 1 at its strongest band. `name` is one of
/// "CIE-D65" and the like: a CIE illuminant of colord-data; "planckian:2856": a Planckian radiator by its
/// temperature in K, 1000..25000; "daylight:5003": a CIE daylight phase, 4000..25000; "led:4000": a white
/// LED, blue peak and phosphor, whose correlated colour temperature is about that, 2500..7000. Throws
/// InputError that says so.
Bands read_lamp(const std::string& name);

/// A lamp as the scene sees it: power, and what the standard observer makes of it.
struct Lamp {
    std::string name;
    Bands power{};
    Bands weights_x{};  ///< power times observer, so scaled that the perfect diffuser has Y = 1
    Bands weights_y{};
    Bands weights_z{};
    WhitePoint white;
    std::optional<double> colour_temperature;  ///< correlated, in K; absent where it means nothing

    /// XYZ of a reflectance under the lamp; 1 for Y of the perfect diffuser.
    XYZ xyz(const Bands& reflectance) const;
    /// CIELAB of an XYZ under this lamp, adapted from its white to D50 by Bradford: how a colour is reported
    /// everywhere.
    Lab lab(const XYZ& under_lamp) const;
    Lab lab(const Bands& reflectance) const { return lab(xyz(reflectance)); }
};

/// One lamp, or two whose light falls mixed on all of the scene: `second_share` (0..1) of the luminance comes
/// from `second`, which may be empty at 0. Throws InputError as read_lamp, and for a share out of range.
Lamp make_lamp(const std::string& first, const std::string& second = {}, double second_share = 0);
/// A lamp of any power, in any scale.
Lamp lamp_of_power(const std::string& name, const Bands& power);

}  // namespace tonemend
