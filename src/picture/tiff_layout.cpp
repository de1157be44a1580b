#include "picture/tiff_layout.h"

#include <algorithm>
#include <cstdint>
#include <vector>

#include <fmt/format.h>

#include "picture/still.h"

namespace tonemend {
namespace {

std::uint16_t field(TIFF* tiff, std::uint32_t tag) {
    std::uint16_t value = 0;
    TIFFGetFieldDefaulted(tiff, tag, &value);
    return value;
}

/// Grey is 1, RGB 3; throws for the rest.
std::size_t colour_channels(TIFF* tiff, const std::string& name) {
    std::uint16_t photometric = 0;
    if (!TIFFGetField(tiff, TIFFTAG_PHOTOMETRIC, &photometric))
        refuse_damaged(name, "it does not say what it holds");
    switch (photometric) {
        case PHOTOMETRIC_MINISBLACK:
        case PHOTOMETRIC_MINISWHITE:
            return 1;
        case PHOTOMETRIC_RGB:
            return 3;
        case PHOTOMETRIC_YCBCR:
            if (field(tiff, TIFFTAG_COMPRESSION) != COMPRESSION_JPEG) break;
            TIFFSetField(tiff, TIFFTAG_JPEGCOLORMODE, JPEGCOLORMODE_RGB);
            return 3;
        case PHOTOMETRIC_SEPARATED:
            refuse(name, "is a CMYK TIFF, made for printing",
                   "save the photo as RGB, or take it from the camera again");
        default:
            break;
    }
    refuse(name, fmt::format("is a TIFF of photometric kind {}, not grey or RGB", photometric),
           "save it as an RGB TIFF");
}

bool is_alpha(TIFF* tiff) {
    std::uint16_t count = 0;
    const std::uint16_t* kinds = nullptr;
    TIFFGetFieldDefaulted(tiff, TIFFTAG_EXTRASAMPLES, &count, &kinds);
    return count > 0 && kinds && (kinds[0] == EXTRASAMPLE_ASSOCALPHA || kinds[0] == EXTRASAMPLE_UNASSALPHA);
}

}  // namespace

TiffLayout read_tiff_layout(TIFF* tiff, const std::string& name) {
    std::uint32_t width = 0;
    std::uint32_t height = 0;
    TIFFGetField(tiff, TIFFTAG_IMAGEWIDTH, &width);
    TIFFGetField(tiff, TIFFTAG_IMAGELENGTH, &height);
    require_readable_size(width, height, name);

    TiffLayout layout;
    layout.width = width;
    layout.height = height;
    layout.bits = field(tiff, TIFFTAG_BITSPERSAMPLE);
    const std::uint16_t format = field(tiff, TIFFTAG_SAMPLEFORMAT);
    const bool whole = (layout.bits == 8 || layout.bits == 16) && format == SAMPLEFORMAT_UINT;
    const bool floating = layout.bits == 32 && format == SAMPLEFORMAT_IEEEFP;
    if (!whole && !floating)
        refuse(name, fmt::format("is a TIFF of {} bits a sample in format {}", layout.bits, format),
               "save it with 8 or 16 bits, or 32-bit floating point");

    const std::size_t colours = colour_channels(tiff, name);
    layout.stored_channels = field(tiff, TIFFTAG_SAMPLESPERPIXEL);
    if (layout.stored_channels < colours || layout.stored_channels > 16)
        refuse_damaged(name, fmt::format("{} samples a pixel", layout.stored_channels));
    if (colours == 1 && layout.stored_channels > 1 && is_alpha(tiff))
        refuse(name, "is grey with transparency", "flatten it onto its background and save it again");
    layout.kept_channels = colours == 3 && layout.stored_channels > 3 && is_alpha(tiff) ? 4 : colours;
    layout.planar = field(tiff, TIFFTAG_PLANARCONFIG) == PLANARCONFIG_SEPARATE;
    std::uint16_t photometric = 0;
    TIFFGetField(tiff, TIFFTAG_PHOTOMETRIC, &photometric);
    layout.white_is_zero = photometric == PHOTOMETRIC_MINISWHITE && whole;
    if (photometric == PHOTOMETRIC_MINISWHITE && floating)
        refuse(name, "is a floating-point TIFF whose zero is white", "save it as an RGB TIFF");
    layout.tiled = TIFFIsTiled(tiff) != 0;
    return layout;
}

bool read_tiff_blocks(TIFF* tiff, const TiffLayout& layout,
                      const std::function<void(const TiffBlock&)>& use) {
    TiffBlock block;
    block.width = layout.width;
    std::uint32_t block_width = 0;
    std::uint32_t block_height = 0;
    if (layout.tiled) {
        TIFFGetField(tiff, TIFFTAG_TILEWIDTH, &block_width);
        TIFFGetField(tiff, TIFFTAG_TILELENGTH, &block_height);
        block.width = block_width;
    } else {
        TIFFGetFieldDefaulted(tiff, TIFFTAG_ROWSPERSTRIP, &block_height);
    }
    if (block.width == 0 || block_height == 0) return false;
    block_height = layout.tiled
                       ? block_height
                       : static_cast<std::uint32_t>(std::min<std::size_t>(block_height, layout.height));
    block.channels = layout.planar ? 1 : layout.stored_channels;
    const std::size_t row_bytes = block.width * block.channels * layout.bits / 8;
    // A tile larger than any picture that is read would be a damaged number.
    if (row_bytes * block_height > 16 * most_pixels) return false;
    std::vector<std::byte> buffer(row_bytes * block_height);
    block.samples = buffer.data();

    const std::size_t planes = layout.planar ? layout.kept_channels : 1;
    for (std::size_t plane = 0; plane < planes; ++plane)
        for (block.y = 0; block.y < layout.height; block.y += block_height)
            for (block.x = 0; block.x < layout.width; block.x += block.width) {
                block.first_channel = plane;
                block.height = layout.tiled ? block_height
                                            : std::min<std::size_t>(block_height, layout.height - block.y);
                const auto wanted = static_cast<tmsize_t>(row_bytes * block.height);
                const auto y = static_cast<std::uint32_t>(block.y);
                const auto sample = static_cast<std::uint16_t>(plane);
                const tmsize_t got =
                    layout.tiled
                        ? TIFFReadEncodedTile(
                              tiff, TIFFComputeTile(tiff, static_cast<std::uint32_t>(block.x), y, 0, sample),
                              buffer.data(), wanted)
                        : TIFFReadEncodedStrip(tiff, TIFFComputeStrip(tiff, y, sample), buffer.data(),
                                               wanted);
                if (got < wanted) return false;
                use(block);
            }
    return true;
}

}  // namespace tonemend
