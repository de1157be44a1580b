#pragma once

#include <optional>

#include "calibrate/card/find_card.h"
#include "calibrate/warning.h"

namespace tonemend {

/// "card-tilted": the card frame leans by more than 16° against the camera. It cannot be seen whether the
/// card or the camera leans. A card that leans by t on wood under a lamp at 45° gets cos(45° − t) / cos 45°
/// of the wood's light: 10° more is 16 %, 2 ΔE2000; a camera that leans sees more of the lamp's mirror image.
std::optional<Warning> warn_of_tilt(const FoundCard& found);

}  // namespace tonemend
