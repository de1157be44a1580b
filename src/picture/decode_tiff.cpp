#include <algorithm>
#include <cstring>

#include <fmt/format.h>

#include "picture/opaque.h"
#include "picture/standard_encodings.h"
#include "picture/still.h"
#include "picture/tiff_layout.h"
#include "picture/tiff_memory.h"

namespace tonemend {
namespace {

/// Copies the wanted channels of a block's pixels to their places: channel c of the block goes to
/// channel first + c of the picture.
template <typename Sample>
void place(const TiffBlock& block, const TiffLayout& layout, std::vector<std::byte>& samples) {
    const auto* const from = reinterpret_cast<const Sample*>(block.samples);
    auto* const to = reinterpret_cast<Sample*>(samples.data());
    const std::size_t picture_channels = layout.kept_channels;
    const std::size_t columns = std::min(block.width, layout.width - block.x);
    const std::size_t rows = std::min(block.height, layout.height - block.y);
    const std::size_t channels = std::min(block.channels, picture_channels - block.first_channel);
    const Sample flip = layout.white_is_zero ? static_cast<Sample>(~Sample{0}) : Sample{0};
    for (std::size_t row = 0; row < rows; ++row)
        for (std::size_t column = 0; column < columns; ++column)
            for (std::size_t c = 0; c < channels; ++c)
                to[((block.y + row) * layout.width + block.x + column) * picture_channels +
                   block.first_channel + c] =
                    static_cast<Sample>(from[(row * block.width + column) * block.channels + c] ^ flip);
}

void place_block(const TiffBlock& block, const TiffLayout& layout, std::vector<std::byte>& samples) {
    if (layout.bits == 8) place<std::uint8_t>(block, layout, samples);
    if (layout.bits == 16) place<std::uint16_t>(block, layout, samples);
    if (layout.bits == 32) place<std::uint32_t>(block, layout, samples);  // floats, as their bits
}

/// One channel becomes three, or three and an alpha the three.
void to_three_channels(const TiffLayout& layout, const std::string& name, std::vector<std::byte>& samples) {
    const std::size_t pixels = layout.width * layout.height;
    const std::size_t size = layout.bits / 8;
    if (layout.kept_channels == 4) {
        if (!drop_opaque_alpha(samples.data(), pixels, size))
            refuse(name, "is partly transparent", "flatten it onto its background and save it again");
        samples.resize(3 * size * pixels);
    }
    if (layout.kept_channels != 1) return;
    samples.resize(3 * size * pixels);
    for (std::size_t i = pixels; i-- > 0;)
        for (std::size_t c = 3; c-- > 0;)
            std::memmove(&samples[(3 * i + c) * size], &samples[i * size], size);
}

SampleType sample_type(const TiffLayout& layout) {
    if (layout.bits == 8) return SampleType::uint8;
    return layout.bits == 16 ? SampleType::uint16 : SampleType::float32;
}

std::vector<std::uint8_t> profile_of(TIFF* tiff) {
    std::uint32_t size = 0;
    void* data = nullptr;
    if (!TIFFGetField(tiff, TIFFTAG_ICCPROFILE, &size, &data) || !data) return {};
    const auto* const first = static_cast<const std::uint8_t*>(data);
    return {first, first + size};
}

/// The file itself is the structure that EXIF is read from; only worth it when a camera wrote it.
bool has_exif(TIFF* tiff) {
    std::uint64_t offset = 0;
    const char* make = nullptr;
    return TIFFGetField(tiff, TIFFTAG_EXIFIFD, &offset) || TIFFGetField(tiff, TIFFTAG_MAKE, &make);
}

}  // namespace

Still decode_tiff(std::span<const std::byte> bytes, const std::string& name) {
    TiffMemory memory(bytes);
    TIFF* const tiff = memory.get();
    if (!tiff) refuse_damaged(name, memory.error());
    const TiffLayout layout = read_tiff_layout(tiff, name);
    std::uint16_t compression = COMPRESSION_NONE;
    TIFFGetField(tiff, TIFFTAG_COMPRESSION, &compression);
    if (compression == COMPRESSION_NONE || compression == COMPRESSION_ADOBE_DEFLATE ||
        compression == COMPRESSION_DEFLATE)
        require_enough_bytes(layout.width * layout.height * layout.stored_channels * layout.bits / 8,
                             bytes.size(), name);

    Still still;
    still.width = static_cast<int>(layout.width);
    still.height = static_cast<int>(layout.height);
    still.type = sample_type(layout);
    still.grey = layout.kept_channels == 1;
    still.icc = profile_of(tiff);
    if (still.type == SampleType::float32) still.encoding = linear_srgb_encoding(Provenance::assumed);
    std::uint16_t orientation = 1;
    if (TIFFGetField(tiff, TIFFTAG_ORIENTATION, &orientation)) still.orientation = orientation;
    still.file_is_exif = has_exif(tiff);

    const std::size_t channels = std::max<std::size_t>(layout.kept_channels, 3);
    still.samples.reserve(layout.width * layout.height * channels * layout.bits / 8);
    still.samples.resize(layout.width * layout.height * layout.kept_channels * layout.bits / 8);
    const bool read = read_tiff_blocks(
        tiff, layout, [&](const TiffBlock& block) { place_block(block, layout, still.samples); });
    if (!read || !memory.error().empty()) refuse_damaged(name, memory.error());
    to_three_channels(layout, name, still.samples);
    return still;
}

}  // namespace tonemend
