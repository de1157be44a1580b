#pragma once

#include <array>

#include "colour/lab.h"

namespace tonemend {

/// Reflectance of wood in three wide bands, red, green, blue: the linear channels of ROMM RGB (ISO 22028-2),
/// which hold all colours that surfaces have; 1 for the perfect diffuser. In so few bands what a colourant
/// does to one colour foretells what it does to another, and as well as in many for dyes and pigments
/// (measured: study_advise).
using WideChannels = std::array<double, 3>;

/// From CIELAB under D50, kept within 0.002 to 0.995, where Kubelka's and Munk's formulas hold.
WideChannels to_channels(const Lab& lab);
/// The inverse within those bounds.
Lab to_lab(const WideChannels& channels);

}  // namespace tonemend
