#pragma once

#include <cstddef>
#include <filesystem>
#include <span>
#include <string>

#include "picture/frame.h"

namespace tonemend {

/// Reads a still (JPEG, PNG, TIFF, WebP, or whatever raw LibRaw knows), recognised by its content, not its
/// name; turned upright by its EXIF orientation; embedded ICC profile honoured, else what the file states
/// (PNG chunks, EXIF), else sRGB is assumed and said (linear for float TIFF). At most 200 megapixels. Peak
/// memory: the encoded samples twice (3, 6 or 12 bytes a pixel each) plus the file; for raw 16 bytes a pixel
/// plus the file. Throws InputError.
Frame read_picture(const std::filesystem::path& path);

/// The same from a file's bytes in memory; `name` is for messages.
Frame read_picture(std::span<const std::byte> bytes, const std::string& name);

}  // namespace tonemend
