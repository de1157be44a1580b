#pragma once

#include <string>

#include "measure/second_light.h"

namespace tonemend {

/// The pair under its lights in a few lines: each light's ΔE2000, then for each change of light the verdict,
/// the index, how the pair moves, the numbers, what to bear in mind. Ends with a newline.
std::string summarise_lights(const PairUnderLights& pair);

}  // namespace tonemend
