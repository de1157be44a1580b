#pragma once

#include "practice/light_map.h"

namespace tonemend {

/// The scene's shadow and bands laid over its light. A shadow is a half plane across the card with an edge as
/// soft as a fiftieth of the picture's width (standard deviation); bands are a sine over the rows, as a
/// rolling shutter makes of lamps that flicker with the mains.
void dim_by_faults(const PracticeScene& scene, RawPicture& picture);

/// The lamp's mirror image on the repair: a soft round spot in the middle of its region, a third of it wide.
void add_glint(const PracticeScene& scene, RawPicture& picture);

}  // namespace tonemend
