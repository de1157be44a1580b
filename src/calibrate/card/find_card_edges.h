#pragma once

#include <optional>

#include "calibrate/card/find_card_grey.h"
#include "picture/geometry.h"

namespace tonemend {

/// The corners of a marker as the crossings of straight lines through its four outer edges; an edge is where
/// linear light stands half-way between the black border and the paper, which blur does not move. `rough`
/// must be nearer than one cell (an eighth of a side). Empty when an edge cannot be seen along half its
/// length.
std::optional<Quad> refine_marker(const GreenLight& light, const Quad& rough);

}  // namespace tonemend
