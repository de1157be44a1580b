#pragma once

#include <optional>
#include <vector>

#include "calibrate/tone/patch_reading.h"
#include "calibrate/warning.h"

namespace tonemend {

/// The side of the smallest neutral patch in picture pixels, its unread rim included, as of a square of the
/// same area; 0 without any.
double smallest_patch_side(const std::vector<PatchReading>& patches);

/// "card-small": the part of a patch that is read is less than 16 pixels wide, the side of the squares in
/// which JPEG with halved colour codes it (ITU-T T.81, A.2), so none is free of its surroundings.
std::optional<Warning> warn_of_card_size(const std::vector<PatchReading>& patches);

}  // namespace tonemend
