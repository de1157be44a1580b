#pragma once

#include <filesystem>

namespace tonemend {

enum class UserFolder { settings, data };

/// Where the program keeps what belongs to the person: "tonemend" in $XDG_CONFIG_HOME, else ~/.config, and in
/// $XDG_DATA_HOME, else ~/.local/share (XDG Base Directory Specification; a relative path there is passed
/// over). Without a home it is below /tmp. Nothing is created.
std::filesystem::path user_folder(UserFolder which);

}  // namespace tonemend
