#pragma once

#include "live/painter.h"

namespace tonemend {

/// Every key and what it does, in place of the picture; measuring goes on.
void draw_keys_page(Painter& painter, const Box& box);

}  // namespace tonemend
