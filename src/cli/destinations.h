#pragma once

#include <filesystem>

namespace tonemend {

/// Asks before anything is measured or written whether the annotated copy can be written. An empty path is
/// not wanted and not asked about. Throws InputError: a copy that is not .png, that would replace `picture`
/// itself, or whose folder is missing or closed to the user.
void require_destinations(const std::filesystem::path& picture, const std::filesystem::path& copy);

}  // namespace tonemend
