#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "live/display_table.h"

namespace tonemend {

/// The table of the display that an ICC profile describes (ICC.1:2022), media-relative colorimetric, without
/// black point compensation, by Little CMS. Within 0.5/255 of what Little CMS makes of each colour directly,
/// over the cube of sRGB and over wood (tests/live/display_profiles.cpp prints the worst). `name` is for
/// messages. Throws InputError: damaged, not RGB, or of a class that cannot encode colours for a display.
DisplayTable make_display_table(std::span<const std::uint8_t> profile, const std::string& name);

/// The same for sRGB (IEC 61966-2-1): what a display is taken to be when nothing says what it is.
DisplayTable make_srgb_display_table();

/// The table of a profile file. Throws InputError as make_display_table and read_file_bytes do.
DisplayTable read_display_profile(const std::filesystem::path& path);

/// The profile that the desktop has set for a screen of the X server of $DISPLAY: the property _ICC_PROFILE
/// of the root window, _ICC_PROFILE_n for monitor n ≥ 1 ("ICC Profiles in X Specification" 0.4,
/// freedesktop.org). Nothing without a server or a property. `display_name` overrides $DISPLAY.
std::optional<std::vector<std::uint8_t>> read_x11_profile(int monitor = 0,
                                                          const std::string& display_name = "");

}  // namespace tonemend
