#pragma once

#include <cstdint>

namespace tonemend {

/// Encoded sRGB, opaque.
struct Shade {
    std::uint8_t r = 0, g = 0, b = 0;
};

enum class ThemeName { light, dark };

/// Neutral greys, so that the wood beside them is judged fairly, and one cool blue-grey, far from any wood,
/// for what can be touched.
struct Theme {
    Shade surround;  ///< L* 50 (light) or 20 (dark)
    Shade plate;     ///< behind text
    Shade ink;       ///< text; at least 4.5:1 on plate, surround and touch
    Shade faint;     ///< lesser text; at least 4.5:1 on plate
    Shade tube;      ///< of a vial
    Shade bubble;
    Shade etch;   ///< the lines on a vial
    Shade touch;  ///< what can be touched
    Shade touch_hover;
    Shade strong;      ///< the one control that matters, and what is selected
    Shade strong_ink;  ///< text on it; at least 4.5:1
};

const Theme& theme(ThemeName name);

/// Relative luminance contrast as WCAG 2.1 defines it, 1 to 21.
double contrast(const Shade& one, const Shade& other);

}  // namespace tonemend
