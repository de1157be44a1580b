#pragma once

#include <vector>

#include "picture/geometry.h"
#include "picture/region.h"

namespace tonemend {

/// `count` strips side by side across a board whose corners are top left, top right, bottom right, bottom
/// left: the middle of each, a fifth away from its neighbours and a tenth from the board's ends. At least one
/// (asserted).
std::vector<Region> strip_regions(const Quad& board, std::size_t count);

}  // namespace tonemend
