#pragma once

#include <array>
#include <cstdint>

#include "colour/lab.h"

namespace tonemend {

/// `lab` (D50) as 8-bit encoded sRGB for showing, adapted to D65 by Bradford; colours outside sRGB are
/// clipped channel by channel.
std::array<std::uint8_t, 3> to_srgb8(const Lab& lab);

}  // namespace tonemend
