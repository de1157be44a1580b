#include <webp/decode.h>
#include <webp/demux.h>

#include <memory>

#include "picture/opaque.h"
#include "picture/still.h"

namespace tonemend {
namespace {

struct CloseDemux {
    void operator()(WebPDemuxer* demux) const { WebPDemuxDelete(demux); }
};

std::vector<std::uint8_t> chunk(const WebPDemuxer* demux, const char* fourcc) {
    WebPChunkIterator found{};
    std::vector<std::uint8_t> bytes;
    if (WebPDemuxGetChunk(demux, fourcc, 1, &found))
        bytes.assign(found.chunk.bytes, found.chunk.bytes + found.chunk.size);
    WebPDemuxReleaseChunkIterator(&found);
    return bytes;
}

/// Some writers keep the six bytes that introduce EXIF in a JPEG.
void drop_jpeg_label(std::vector<std::uint8_t>& exif) {
    if (exif.size() > 6 && exif[0] == 'E' && exif[1] == 'x') exif.erase(exif.begin(), exif.begin() + 6);
}

}  // namespace

Still decode_webp(std::span<const std::byte> bytes, const std::string& name) {
    const auto* const data = reinterpret_cast<const std::uint8_t*>(bytes.data());
    WebPBitstreamFeatures features{};
    if (WebPGetFeatures(data, bytes.size(), &features) != VP8_STATUS_OK)
        refuse_damaged(name, "no WebP picture in it");
    if (features.has_animation) refuse(name, "is an animation", "save one picture of it as PNG");
    require_readable_size(static_cast<std::uint64_t>(features.width),
                          static_cast<std::uint64_t>(features.height), name);

    Still still;
    still.width = features.width;
    still.height = features.height;
    const WebPData file{data, bytes.size()};
    const std::unique_ptr<WebPDemuxer, CloseDemux> demux(WebPDemux(&file));
    if (!demux) refuse_damaged(name, "the file ends too early");
    still.icc = chunk(demux.get(), "ICCP");
    still.exif = chunk(demux.get(), "EXIF");
    drop_jpeg_label(still.exif);

    const std::size_t pixels = static_cast<std::size_t>(still.width) * static_cast<std::size_t>(still.height);
    const std::size_t channels = features.has_alpha ? 4 : 3;
    still.samples.resize(channels * pixels);
    const auto decode = features.has_alpha ? WebPDecodeRGBAInto : WebPDecodeRGBInto;
    if (!decode(data, bytes.size(), reinterpret_cast<std::uint8_t*>(still.samples.data()),
                still.samples.size(), static_cast<int>(channels) * still.width))
        refuse_damaged(name, "the picture data cannot be decoded");
    if (channels == 4) {
        if (!drop_opaque_alpha(still.samples.data(), pixels, 1))
            refuse(name, "is partly transparent", "flatten it onto its background and save it again");
        still.samples.resize(3 * pixels);
    }
    return still;
}

}  // namespace tonemend
