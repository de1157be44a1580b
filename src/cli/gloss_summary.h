#pragma once

#include <string>

#include "cli/terminal_summary.h"
#include "measure/gloss.h"

namespace tonemend {

/// The reading without gloss as `compare` prints it, and below it what the lamp showed: gloss, sheen and
/// shimmer of both regions. Ends with a newline.
std::string summarise_gloss(const std::vector<LampPosition>& positions, const GlossResult& result,
                            Swatches swatches);

/// How to place lamps and polarisers, with a drawing of characters. Ends with a newline.
std::string advise_on_lamps();

}  // namespace tonemend
