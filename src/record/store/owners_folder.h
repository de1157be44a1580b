#pragma once

#include <filesystem>

namespace tonemend {

/// Makes the folder, and those above it, if it is not there; only its owner can enter it. Throws InputError.
void make_owners_folder(const std::filesystem::path& folder);

}  // namespace tonemend
