#pragma once

#include <optional>

#include "calibrate/calibration.h"

namespace tonemend {

/// What was done to all colours alike: the turn and stretch of a*, b* about grey that takes the card's stated
/// colours nearest to those that the camera's own matrix reads (least squares).
struct ColourStyle {
    double saturation = 1;   ///< read chroma over stated chroma
    double hue_degrees = 0;  ///< a* towards b*: red turns to yellow
};

/// From the coloured patches that are not clipped; nothing with fewer than three, or with hues all on one
/// side, as of wood, where a turn cannot be told from another colour of the light.
std::optional<ColourStyle> find_colour_style(const Calibration& calibration);

/// "colours-styled": a picture style that raises or lowers saturation by more than 20 % or turns hues by more
/// than 9°: at C* 25, as of wood, both are 3 to 4 ΔE2000, though less between two like woods. Neutral steps
/// cannot show it: a card without coloured patches never raises this.
std::optional<Warning> warn_of_styled_colours(const Calibration& calibration);

}  // namespace tonemend
