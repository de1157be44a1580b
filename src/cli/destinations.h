#pragma once

#include <filesystem>

namespace tonemend {

/// Asks before anything is measured or written whether the annotated copy and the job folder can be written,
/// so that a refusal leaves neither behind. Empty paths are not wanted and not asked about. Throws
/// InputError: a copy that is not .png, that would replace `picture` itself, or whose folder is missing or
/// closed to the user; a job that is not a folder, or cannot be made one.
void require_destinations(const std::filesystem::path& picture, const std::filesystem::path& copy,
                          const std::filesystem::path& job);

}  // namespace tonemend
