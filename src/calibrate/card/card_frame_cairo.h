#pragma once

#include <cairo.h>

#include "calibrate/card/card_frame_drawing.h"

namespace tonemend {

/// Paints the sheet; one unit of `context` is one millimetre.
void paint_card_frame(cairo_t* context, const CardFrameDrawing& drawing);

}  // namespace tonemend
