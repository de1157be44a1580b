#pragma once

#include <cstdint>
#include <vector>

namespace tonemend {

/// An ICC profile of sRGB (version 4, matrix and curves), to be embedded where the samples are meant as sRGB.
/// Always the same bytes for one version of Little CMS: its date is fixed.
std::vector<std::uint8_t> srgb_profile();

}  // namespace tonemend
