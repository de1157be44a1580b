#pragma once

#include <filesystem>

namespace tonemend {

/// Puts the parts of an SQLite file's first 100 bytes right that are the same in every store of this program
/// (SQLite file format, 1.3: magic, page size, versions, fractions, encoding), and the number of pages.
/// Returns whether any was wrong.
bool mend_file_header(const std::filesystem::path& file);

}  // namespace tonemend
