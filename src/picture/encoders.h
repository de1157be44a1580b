#pragma once

#include <cstddef>
#include <vector>

#include "picture/frame.h"
#include "picture/write_picture.h"

namespace tonemend {

using EncodedBytes = std::vector<std::byte>;

// A frame's encoded samples as the bytes of a file. Each throws InputError when the format cannot hold the
// frame's sample type or size.

/// 8 or 16 bit, RGB.
EncodedBytes encode_png(const Frame& frame, const WriteOptions& options);
/// 8 or 16 bit or 32-bit float, RGB, uncompressed.
EncodedBytes encode_tiff(const Frame& frame, const WriteOptions& options);
/// 8 bit, YCbCr; 4:4:4 from quality 90, else 4:2:0.
EncodedBytes encode_jpeg(const Frame& frame, const WriteOptions& options);
/// 8 bit, lossless.
EncodedBytes encode_webp(const Frame& frame, const WriteOptions& options);

}  // namespace tonemend
