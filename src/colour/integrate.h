#pragma once

#include "colour/observer.h"
#include "colour/spectrum.h"
#include "colour/xyz.h"

namespace tonemend {

/// Illuminant times observer on one grid, scaled so that the sum of Y's weights is 1: what turns a
/// reflectance into XYZ under one light (CIE 15:2018, 7.1). Make it once per light.
struct Weights {
    Spectrum X;
    Spectrum Y;
    Spectrum Z;
};

/// Weights of `illuminant` (relative power, any scale) for `observer`. The sum runs over the wavelengths that
/// both have, 380–780 nm at least for the standard tables, on the finer of the two grids, so that no lamp
/// line falls between two wavelengths: a coarser observer is resampled, a coarser illuminant interpolated
/// linearly as CIE 15 does the daylight phases. Light outside the illuminant's table is taken as none. The
/// grids must overlap and the light must be seen (Y over 0); asserted.
Weights weigh(const Spectrum& illuminant, const Observer& observer);

/// XYZ of a reflectance factor under the weights' light; the perfect diffuser has Y = 1. A reflectance on
/// another grid, say 10 or 20 nm, is brought to the weights' grid by resample() before it is summed (CIE
/// 15:2018, 7.2.3; no weights for coarse grids as in ASTM E308 are used); beyond its ends the end values
/// hold.
XYZ integrate(const Spectrum& reflectance, const Weights& weights);
/// The same in one go.
XYZ integrate(const Spectrum& reflectance, const Spectrum& illuminant, const Observer& observer);

/// The white of a light: XYZ of the perfect diffuser under it.
WhitePoint white_point(const Spectrum& illuminant, const Observer& observer);
WhitePoint white_point(const Weights& weights);

}  // namespace tonemend
