#pragma once

#include <cstddef>
#include <span>

namespace tonemend {

/// True unless `bytes` is a classic TIFF structure (TIFF 6.0, section 2) with a directory that reaches beyond
/// its end, or a directory entry whose value does. Follows the chain, SubIFDs and EXIF. LibRaw passes over
/// such entries, black level and colour matrix among them, and some versions do not survive them.
bool directories_are_whole(std::span<const std::byte> bytes);

}  // namespace tonemend
