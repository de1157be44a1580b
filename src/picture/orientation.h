#pragma once

#include "picture/frame.h"

namespace tonemend {

/// Turns samples stored in one of the eight EXIF orientations (CIPA DC-008, tag 274) upright: `frame` has
/// width, height and samples as stored on entry, and upright on return. Orientation 1 and unknown numbers
/// change nothing. Needs a second buffer of the frame's size.
void turn_upright(Frame& frame, int orientation);

}  // namespace tonemend
