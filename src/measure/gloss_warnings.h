#pragma once

#include <vector>

#include "measure/gloss.h"

namespace tonemend {

/// False when nothing tells the pictures apart: neither the light on card and regions (to 0.5 %, and to what
/// is known of it) nor gloss nor shimmer. A lamp that was moved leaves a trace in one of them.
bool shows_moved_lamp(const std::vector<LampPosition>& positions, const GlossResult& result);

/// `lamp-not-moved`, `gloss-unsure` (grey or badly lit wood, of which neither colour nor brightness tells),
/// `pictures-apart`.
std::vector<Warning> warn_of_gloss(const std::vector<LampPosition>& positions, const GlossResult& result);

}  // namespace tonemend
