#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace tonemend {

/// What a JPEG file carries ahead of its first scan.
struct JpegSegments {
    std::vector<std::uint8_t> icc;   ///< from APP2 (ICC.1:2022, B.4), empty if none
    std::vector<std::uint8_t> exif;  ///< the TIFF structure in APP1, empty if none
    std::optional<int> quality;      ///< 1..100, see below
};

/// Walks the marker segments of a JPEG (ITU-T T.81, annex B) up to the first scan. `quality` is the setting
/// of the usual scaling rule whose table is nearest to the file's luminance table: the example table of T.81
/// annex K times 5000/q % under 50, else 200 − 2q %. Throws InputError when parts of an ICC profile are
/// missing.
JpegSegments read_jpeg_segments(std::span<const std::byte> bytes, const std::string& name);

}  // namespace tonemend
