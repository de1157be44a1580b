#pragma once

#include <vector>

#include "colour/observer.h"
#include "colour/spectrum.h"

namespace tonemend {

/// How unlike two lights (relative powers) show colours: the mean ΔE2000 between each reflectance under the
/// one and under the other, both adapted to D50 by Bradford. 0 for lights of one spectrum; symmetric. The
/// measure is our own; that colours are compared after adaptation, over test colours, is as in CIE 13.3-1995.
/// `reflectances` must not be empty (asserted).
double rendering_difference(const Spectrum& first, const Spectrum& second,
                            const std::vector<Spectrum>& reflectances, const Observer& observer);

}  // namespace tonemend
