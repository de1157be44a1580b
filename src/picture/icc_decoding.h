#pragma once

#include <cstdint>
#include <filesystem>
#include <span>
#include <string>

#include "picture/frame.h"

namespace tonemend {

/// How many channels the picture that embeds the profile stores.
enum class StoredChannels { one, three };

/// The encoding that an ICC profile describes (ICC.1:2022), media-relative colorimetric, PCS white D50.
/// - Three curves and colorants: separable; linear RGB is the profile's own, to_xyz_d50 its colorants.
/// - A lookup table (A2B, D2B): not separable; linear RGB is linear ROMM RGB.
/// - One grey curve, for pictures of one channel: separable; R = G = B.
/// `name` is the file that embeds it, for messages. Throws InputError: damaged, not RGB (or grey), or of a
/// class that describes no picture (device link, abstract, named colours).
ColourEncoding icc_encoding(std::span<const std::uint8_t> profile, StoredChannels channels,
                            const std::string& name);

/// The encoding in a profile file of its own, for a camera or scanner that was characterised beforehand.
/// Throws InputError also for a printer's profile, and for a display's lookup table: they do not tell what a
/// camera saw.
ColourEncoding read_icc_profile(const std::filesystem::path& path);

}  // namespace tonemend
