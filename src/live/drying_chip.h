#pragma once

#include "live/drying_follower.h"
#include "live/painter.h"

namespace tonemend {

/// The repair while it dries, as one chip in the row of readings: its wet colour and that of now edge to
/// edge, about how long still, and a clock whose hand has gone round as far as the drying has.
void draw_drying_chip(Painter& painter, const Box& box, const DryingSaid& said);

}  // namespace tonemend
