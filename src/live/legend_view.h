#pragma once

#include "live/overlay_choice.h"
#include "live/painter.h"

namespace tonemend {

/// What the overlay's colours mean, on a plate along the foot of `picture`; returns the plate's box.
Box draw_legend(Painter& painter, const Box& picture, const Legend& legend);

}  // namespace tonemend
