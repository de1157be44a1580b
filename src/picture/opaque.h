#pragma once

#include <cstddef>

namespace tonemend {

/// Turns R, G, B, A pixels of `bytes_per_sample` (1, 2 or 4) into R, G, B in place, packed from the front.
/// False, with the pixels spoilt, when some alpha is not the full value (all bits set; 1.0 for 4 bytes).
bool drop_opaque_alpha(std::byte* samples, std::size_t pixels, std::size_t bytes_per_sample);

}  // namespace tonemend
