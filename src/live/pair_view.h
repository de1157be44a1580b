#pragma once

#include "live/painter.h"
#include "live/picture_texture.h"
#include "measure/comparison.h"

namespace tonemend {

/// Original and repair edge to edge: their mean colours large, and under them two strips of the real texture,
/// at equal scale and under the same light.
void draw_pair(Painter& painter, const Box& box, const Comparison& comparison, const PictureTexture& original,
               const PictureTexture& repair);

}  // namespace tonemend
