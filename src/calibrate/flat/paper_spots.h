#pragma once

#include <vector>

#include "calibrate/card/find_card.h"
#include "calibrate/tone/patch_reading.h"

namespace tonemend {

/// Up to sixteen spots of bare paper of the card frame, beside the window and at the margins, each small
/// enough to be quickly read. Spots outside the picture, smaller than 100 pixels or clipped are left out.
std::vector<PatchReading> read_paper(const Frame& frame, const FoundCard& found);

/// The mean of a region's corners: the middle of a rectangle.
Point middle_of(const Region& region);
Point middle_of(const Quad& quad);

}  // namespace tonemend
