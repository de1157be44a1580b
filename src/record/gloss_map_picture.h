#pragma once

#include "measure/gloss.h"
#include "measure/gloss_map.h"
#include "record/annotated_picture.h"

namespace tonemend {

/// The map as a PNG of grey squares: black where nothing is mirrored, white at the legend's end (the smallest
/// of 1, 2, 5, 10, 20, 50, 100 % of white that holds both regions), hatched where nothing is known; the
/// regions outlined with their gloss, the legend and the verdict on sheen below.
AnnotatedPicture picture_of_gloss(const GlossMap& map, const LampPosition& first, const GlossResult& result);

}  // namespace tonemend
