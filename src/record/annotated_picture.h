#pragma once

#include <filesystem>

#include "measure/comparison.h"

namespace tonemend {

/// Writes a copy of the picture (PNG, at most 2400 pixels on its longer side) with the card and both regions
/// outlined and, below it, a panel with the verdict, the vials, the two colours edge to edge and the next
/// move, in type that can be read on a phone. Throws InputError when `path` does not end in .png or cannot be
/// written.
void save_annotated_picture(const Frame& frame, const Calibration& calibration, const Comparison& comparison,
                            const std::filesystem::path& path);

}  // namespace tonemend
