#pragma once

#include <cstdint>
#include <vector>

#include "picture/frame.h"

namespace tonemend {

/// An ICC profile (version 4) that says what `encoding` says, so that samples written beside it are read back
/// as the same light. Three curves: matrix and curves, as a formula where it is one (linear, sRGB, a power),
/// else as a table of 4096 steps; linear light within 2e-5 of white for each code, colorants rounded to
/// 1/65536. A lookup table: the profile that it came in, byte for byte. What a profile cannot say
/// (camera_native, native_balance, assumed) is lost.
std::vector<std::uint8_t> encoding_profile(const ColourEncoding& encoding);

}  // namespace tonemend
