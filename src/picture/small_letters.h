#pragma once

#include <filesystem>
#include <string>

namespace tonemend {

/// Its plain letters A to Z as small ones, all else as it is, so that names compare whatever their case.
std::string in_small_letters(std::string text);

/// What a file's name ends in, with its dot, in small letters: ".jpg" of "seat.JPG"; "" when it has no
/// ending.
std::string file_ending(const std::filesystem::path& path);

}  // namespace tonemend
