#pragma once

#include "calibrate/flat/surface_fit.h"

namespace tonemend {

/// Throws InputError unless what is left of the fit is an even sheet's: tiles off by 1 % rms at most
/// (`tile_miss`), cells by 1.5 % rms, a fifth of the cells left out at most, and no spot over 1.5 % of the
/// sheet that is lighter or darker than the surface.
void require_even_sheet(const FlatSamples& samples, const std::vector<LogSample>& logs, const SurfaceFit& fit,
                        double tile_miss);

}  // namespace tonemend
