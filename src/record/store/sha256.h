#pragma once

#include <cstddef>
#include <span>
#include <string>

namespace tonemend {

/// The SHA-256 (FIPS 180-4) of some bytes, as 64 hexadecimal digits in small letters.
std::string sha256(std::span<const std::byte> bytes);
std::string sha256(const std::string& text);
/// Whether `text` looks like one.
bool is_sha256(const std::string& text);

}  // namespace tonemend
