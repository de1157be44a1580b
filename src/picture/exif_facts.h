#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "picture/frame.h"

namespace tonemend {

/// The RGB space that EXIF states for the picture's samples (CIPA DC-008 ColorSpace, and the interoperability
/// index R03 for the optional opRGB space of DCF 2.0).
enum class ExifColour { unstated, srgb, op_rgb };

/// What EXIF says, as far as measuring needs it.
struct ExifFacts {
    CaptureFacts capture;            ///< all but `raw` and `jpeg_quality`
    std::optional<int> orientation;  ///< 1..8
    ExifColour colour = ExifColour::unstated;
};

/// Reads EXIF from a TIFF structure in memory. What is damaged or absent is left out; never throws for it.
ExifFacts read_exif(std::span<const std::uint8_t> tiff) noexcept;

}  // namespace tonemend
