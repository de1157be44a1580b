#pragma once

#include <array>

#include "measure/region_pixels.h"

namespace tonemend {

/// What glare looks like on one region, whose light is calibrated linear RGB.
struct GlareGauge {
    std::array<float, 3> weights{};  ///< weights · rgb is the neutral part of a pixel
    float centre = 0;                ///< the region's median neutral part
    float limit = 1;                 ///< the neutral part that counts as glare, over `centre`
    float brightness = 0;            ///< R + G + B of the region's median colour: glare only ever adds light

    float neutral_part(const float* rgb) const {
        return weights[0] * rgb[0] + weights[1] * rgb[1] + weights[2] * rgb[2];
    }
};

/// The gauge of the used pixels of a region, of which there is at least one.
GlareGauge gauge_glare(const RegionPixels& pixels);

/// Marks pixels where the finish mirrors the lamp: they carry the region's own colour plus light of the
/// lamp's colour, which is neutral once the picture is balanced. A pixel is glare when the neutral part that
/// must be added to a multiple of the region's median colour to explain it stands out: by 2 % of white, and
/// by six robust standard deviations of that part over the region. Even veils over the whole region cannot be
/// seen this way (move the lamp). `gauge` is these pixels' own. Returns how many were marked.
std::size_t mark_glare(RegionPixels& pixels, const GlareGauge& gauge);

}  // namespace tonemend
