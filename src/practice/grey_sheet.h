#pragma once

#include "practice/light_map.h"

namespace tonemend {

/// Fills the picture with a sheet of matt grey paper of 45 % reflectance in the camera's raw values, evenly
/// lit: fibres that mottle it by 0.6 % and, over some ten pixels, by 0.3 %; a speck of dust in each 3,000
/// pixels; one scratch. The same seed gives the same sheet.
void draw_grey_sheet(const PracticeScene& scene, RawPicture& picture);

}  // namespace tonemend
