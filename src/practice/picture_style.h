#pragma once

#include "practice/light_map.h"

namespace tonemend {

/// True when the camera does more to its colours than its matrix and tone curve say.
bool is_styled(const PracticeFaults& faults);

/// The scene's picture style on linear sRGB (1: the encoded maximum), in this order: surroundings evened out
/// (each pixel times (mean light within a sixteenth of the width ÷ the picture's mean)^−local_tones),
/// saturation and hue twist about the grey of the same luminance, which leave greys alone, and a tint that
/// colours greys by how light they are: red up and blue down by `tint_percent` of the light where it is
/// white, the other way near black, nothing at middle grey.
void apply_style(const PracticeFaults& faults, RawPicture& linear);

}  // namespace tonemend
