#pragma once

#include "colour/spectrum.h"

namespace tonemend {

/// Colour-matching functions x̄, ȳ, z̄ on one grid (CIE 15:2018, 6). All three share start, step and length.
struct Observer {
    Spectrum x;
    Spectrum y;
    Spectrum z;
};

}  // namespace tonemend
