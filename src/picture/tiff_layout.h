#pragma once

#include <tiffio.h>

#include <cstddef>
#include <functional>
#include <string>

namespace tonemend {

/// How the first picture of a TIFF file stores its samples.
struct TiffLayout {
    std::size_t width = 0;
    std::size_t height = 0;
    std::size_t bits = 8;  ///< 8 or 16 (unsigned), or 32 (float)
    std::size_t stored_channels = 3;
    std::size_t kept_channels = 3;  ///< 1 grey, 3 RGB, 4 RGB and alpha; what is stored beyond is skipped
    bool planar = false;            ///< one plane a channel instead of interleaved
    bool white_is_zero = false;
    bool tiled = false;
};

/// One decoded strip or tile.
struct TiffBlock {
    const std::byte* samples = nullptr;  ///< height × width × channels
    std::size_t x = 0, y = 0;            ///< of its top-left pixel; a tile may reach beyond the picture
    std::size_t width = 0, height = 0;
    std::size_t first_channel = 0, channels = 0;
};

/// Throws InputError: too large, or of a kind that cannot be measured (CMYK, Lab, 1 bit, …), with the cure.
TiffLayout read_tiff_layout(TIFF* tiff, const std::string& name);

/// Decodes every strip or tile in turn into one kept buffer. False when one is damaged or cut short.
bool read_tiff_blocks(TIFF* tiff, const TiffLayout& layout, const std::function<void(const TiffBlock&)>& use);

}  // namespace tonemend
