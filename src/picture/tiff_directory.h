#pragma once

#include <cstddef>
#include <span>

namespace tonemend {

/// True unless `bytes` is a classic TIFF structure whose first directory, or a value that it points to,
/// reaches beyond the end (TIFF 6.0, section 2). A raw reader passes over such tags, black level and colour
/// matrix too.
bool first_directory_is_whole(std::span<const std::byte> bytes);

}  // namespace tonemend
