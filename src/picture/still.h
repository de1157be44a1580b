#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "picture/frame.h"

namespace tonemend {

/// The largest picture read, in pixels; more than any camera that a workshop has.
inline constexpr std::size_t most_pixels = 200'000'000;

/// What one file format's decoder hands over: the samples as stored, not yet turned upright, and what was
/// embedded beside them.
struct Still {
    int width = 0;
    int height = 0;
    SampleType type = SampleType::uint8;
    std::vector<std::byte> samples;          ///< height × width × 3, as in Frame
    bool grey = false;                       ///< the file held one channel; R = G = B
    int orientation = 1;                     ///< 1..8 as EXIF numbers them
    std::vector<std::uint8_t> icc;           ///< embedded profile, empty if none
    std::vector<std::uint8_t> exif;          ///< a TIFF structure with EXIF in it, empty if none
    bool file_is_exif = false;               ///< the file as a whole is such a structure
    std::optional<ColourEncoding> encoding;  ///< when the format itself says how samples relate to light
    CaptureFacts facts;
};

/// One decoder a format. `name` is only for messages. Each throws InputError: damaged, truncated, too large,
/// or of a kind that cannot be measured (CMYK, transparent, …), with the cure.
Still decode_jpeg(std::span<const std::byte> bytes, const std::string& name);
Still decode_png(std::span<const std::byte> bytes, const std::string& name);
Still decode_tiff(std::span<const std::byte> bytes, const std::string& name);
Still decode_webp(std::span<const std::byte> bytes, const std::string& name);
Still decode_raw(std::span<const std::byte> bytes, const std::string& name);

/// The kinds of file that content tells apart.
enum class FileKind { jpeg, png, tiff, webp, raw, heif, unknown };
FileKind recognise(std::span<const std::byte> bytes);

/// True when LibRaw finds a sensor's mosaic in it; for files that no other signature settles.
bool is_raw(std::span<const std::byte> bytes);

/// Throws InputError when a picture of this size cannot be read: no area, or over most_pixels.
void require_readable_size(std::uint64_t width, std::uint64_t height, const std::string& name);
/// Throws InputError when `file_size` bytes cannot hold `sample_bytes` of samples even when all of them are
/// alike, deflated at best 1032 to one (RFC 1951: 258 bytes in two bits). Asked before memory is.
void require_enough_bytes(std::uint64_t sample_bytes, std::size_t file_size, const std::string& name);
/// Throws InputError: the file is damaged or cut short; `detail` is the library's own word for it.
[[noreturn]] void refuse_damaged(const std::string& name, const std::string& detail);
/// Throws InputError: `name` is `what`, and the `cure`.
[[noreturn]] void refuse(const std::string& name, const std::string& what, const std::string& cure);

}  // namespace tonemend
