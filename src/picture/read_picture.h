#pragma once

#include <filesystem>

#include "picture/frame.h"

namespace tonemend {

/// Reads a still (JPEG, PNG, TIFF, WebP, or whatever raw LibRaw knows), recognised by its content, not its name; turned upright
/// by its EXIF orientation; embedded ICC profile honoured, else sRGB is assumed and said (linear for float TIFF). Peak memory: the encoded samples
/// twice (3, 6 or 12 bytes a pixel each) plus the file. Throws InputError.
Frame read_picture(const std::filesystem::path& path);

}  // namespace tonemend
