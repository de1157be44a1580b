#pragma once

#include "live/overlay_choice.h"
#include "live/painter.h"

namespace tonemend {

/// The height that a legend takes.
float legend_height(const Painter& painter);
/// What the overlay's colours mean, on a plate.
void draw_legend(Painter& painter, const Box& plate, const Legend& legend);

}  // namespace tonemend
