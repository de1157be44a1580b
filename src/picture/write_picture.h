#pragma once

#include <cstdint>
#include <filesystem>
#include <span>
#include <vector>

#include "picture/frame.h"

namespace tonemend {

/// What to embed beside the samples.
struct WriteOptions {
    std::vector<std::uint8_t> icc_profile;  ///< empty: none
    int jpeg_quality = 90;                  ///< 1..100, JPEG only; chroma is not subsampled at 90 and above
};

/// Writes the frame's encoded samples as PNG (.png, 8/16 bit), TIFF (.tif/.tiff, 8/16 bit, float), JPEG
/// (.jpg/.jpeg, 8 bit) or WebP (.webp, 8 bit, lossless) by the path's extension; first to a temporary file
/// beside it, then renamed, so that nothing is half written. Throws InputError when the folder cannot be
/// written or the format cannot hold the sample type.
void write_picture(const Frame& frame, const std::filesystem::path& path, const WriteOptions& options = {});

/// Writes `bytes` to `path` through a temporary file and a rename. Throws InputError.
void write_whole_file(const std::filesystem::path& path, std::span<const std::byte> bytes);

/// What is to become a file.
struct FileToWrite {
    std::filesystem::path path;
    std::span<const std::byte> bytes;
};

/// Writes all of them as write_whole_file does, or none: each is a whole temporary file before the first is
/// renamed. Throws InputError.
void write_whole_files(const std::vector<FileToWrite>& files);

}  // namespace tonemend
