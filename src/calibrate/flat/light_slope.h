#pragma once

#include <functional>
#include <vector>

#include "calibrate/card/find_card.h"
#include "calibrate/tone/patch_reading.h"
#include "picture/frame.h"

namespace tonemend {

/// How the light changes across the picture near the card: relative change of brightness a picture pixel.
struct LightSlope {
    double x = 0, y = 0;
    double u = 0;  ///< standard uncertainty of either; never more than what a shop's lamps usually do (3 %
                   ///< across a picture)
};

/// Takes the frame's linear light at a place to evened-out light.
using EvenOut = std::function<Vector3(const Vector3& seen, const Point& place)>;

/// From the slopes within the card's patches: all there is to go by when no card frame is in the picture.
LightSlope light_on_patches(const Frame& frame, const std::vector<PatchReading>& patches);

/// From the white paper of the card frame around the window, which reaches further than the patches: a plane
/// through the brightness of up to sixteen bare spots of paper, spots with a stain, a finger or a shadow left
/// out. Falls back on the patches when fewer than eight spots can be read.
LightSlope light_on_paper(const Frame& frame, const FoundCard& found,
                          const std::vector<PatchReading>& patches, const EvenOut& even_out = nullptr);

}  // namespace tonemend
