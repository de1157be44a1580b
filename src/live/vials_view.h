#pragma once

#include "live/painter.h"
#include "measure/comparison.h"

namespace tonemend {

/// Three spirit levels, L*, a*, b*; empty tubes when there is no comparison.
void draw_vials_view(Painter& painter, const Box& box, const Comparison* comparison);

}  // namespace tonemend
