#pragma once

#include "measure/region_pixels.h"

namespace tonemend {

/// Marks pixels where the finish mirrors the lamp: they carry the region's own colour plus light of the
/// lamp's colour, which is neutral once the picture is balanced. A pixel is glare when the neutral part that
/// must be added to a multiple of the region's median colour to explain it stands out: by 2 % of white, and
/// by six robust standard deviations of that part over the region. Even veils over the whole region cannot be
/// seen this way (move the lamp). Returns how many were marked.
std::size_t mark_glare(RegionPixels& pixels);

}  // namespace tonemend
