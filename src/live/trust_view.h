#pragma once

#include "live/bench.h"
#include "live/painter.h"

namespace tonemend {

/// One line of trust: "reading good", or the most harmful warning with its cure; what zero looks like here;
/// where the rest is.
void draw_trust(Painter& painter, const Box& box, const Bench& bench);
/// Every warning, most harmful first, in place of the picture.
void draw_warnings_page(Painter& painter, const Box& box, const Bench& bench);

}  // namespace tonemend
