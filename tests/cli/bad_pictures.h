#pragma once

#include <filesystem>

namespace tonemend::testing {

/// What is wrong with the profile that a PNG embeds.
enum class ProfileFault { device_link, cut_short, not_a_profile };

/// A sound 8-bit PNG of 16 × 16 pixels whose iCCP chunk (PNG specification, 11.3.2.3) holds an unusable
/// profile.
void write_png_with_bad_profile(const std::filesystem::path& path, ProfileFault fault);

/// A PNG of 16 rows that states 14000 × 14000 pixels.
void write_png_of_false_size(const std::filesystem::path& path);

/// A JPEG of four channels, as prepress makes them.
void write_cmyk_jpeg(const std::filesystem::path& path);

}  // namespace tonemend::testing
