#pragma once

#include <cstddef>
#include <filesystem>
#include <vector>

#include "measure/comparison.h"

namespace tonemend {

/// A file's bytes: a PNG of a copy of the picture (at most 1600 pixels on its longer side) with the card and
/// both regions outlined and, below it, a panel (at least 640 pixels wide, as high as it needs) with the
/// verdict, the next move, the vials, the two colours edge to edge and every warning, in type that can be
/// read on a phone.
using AnnotatedPicture = std::vector<std::byte>;

AnnotatedPicture annotate_picture(const Frame& frame, const Calibration& calibration,
                                  const Comparison& comparison);

/// Writes it, over a file that may be there. Throws InputError when `path` does not end in .png or cannot be
/// written.
void save_annotated_picture(const AnnotatedPicture& picture, const std::filesystem::path& path);

}  // namespace tonemend
