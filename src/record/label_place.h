#pragma once

#include <vector>

#include "picture/canvas.h"

namespace tonemend {

/// Where a label of this size stands by its region, in a picture that is `right` × `bottom` pixels: above,
/// below, right or left of it, or a label's height further up or down: the first place that covers neither
/// the region nor anything of `keep_clear`. Where there is no such place, the one that covers least of them,
/// in the region if need be.
CanvasBox place_label(const CanvasBox& region, double width, double height,
                      const std::vector<CanvasBox>& keep_clear, double right, double bottom);

}  // namespace tonemend
