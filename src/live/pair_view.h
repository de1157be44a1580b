#pragma once

#include "live/painter.h"
#include "live/picture_screen.h"
#include "measure/comparison.h"

namespace tonemend {

/// The two means edge to edge, and under them the middles of the two regions themselves at equal scale.
void draw_pair(Painter& painter, PictureScreen& screen, const Box& box, const Comparison& comparison);

}  // namespace tonemend
