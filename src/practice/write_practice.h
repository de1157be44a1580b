#pragma once

#include <filesystem>

#include "picture/frame.h"
#include "practice/truth.h"

namespace tonemend {

/// "path.truth.json": where the truth of the picture at `path` lies.
std::filesystem::path truth_path(const std::filesystem::path& path);

/// The frame as it comes out of a JPEG file of that quality (1..100) with an sRGB profile; 16 bits are
/// rounded to 8 before. Throws InputError for float samples.
Frame saved_as_jpeg(const Frame& frame, int quality);

/// Renders the scene and writes the picture (format by extension, as write_picture; .dng: raw) and beside it
/// its truth. JPEG and WebP hold 8 bits whatever the options say. All but raw embed an sRGB profile, as
/// cameras do, whatever their tones are. Throws InputError as write_picture does.
Truth write_practice(const PracticeScene& scene, const std::filesystem::path& path);

}  // namespace tonemend
