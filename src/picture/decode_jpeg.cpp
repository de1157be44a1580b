#include <turbojpeg.h>

#include <memory>
#include <new>
#include <string_view>

#include "picture/jpeg_segments.h"
#include "picture/sample_storage.h"
#include "picture/still.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

struct CloseTurboJpeg {
    void operator()(void* handle) const { tjDestroy(handle); }
};

// A progressive file may not keep the decoder busy with scans without end.
#ifdef TJFLAG_LIMITSCANS
constexpr int decode_flags = TJFLAG_ACCURATEDCT | TJFLAG_LIMITSCANS;
#else
constexpr int decode_flags = TJFLAG_ACCURATEDCT;
#endif

/// Some cameras pad between segments, which spoils nothing; every other warning means lost picture data.
bool is_harmless(std::string_view warning) {
    return warning.find("extraneous bytes before marker") != warning.npos;
}

bool ends_properly(std::span<const std::byte> bytes) {
    for (std::size_t i = bytes.size(); i >= 2; --i)
        if (bytes[i - 2] == std::byte{0xff} && bytes[i - 1] == std::byte{0xd9}) return true;
    return false;
}

}  // namespace

Still decode_jpeg(std::span<const std::byte> bytes, const std::string& name) {
    const std::unique_ptr<void, CloseTurboJpeg> decoder(tjInitDecompress());
    if (!decoder) throw std::bad_alloc();
    const auto* const data = reinterpret_cast<const unsigned char*>(bytes.data());
    const auto message = [&] { return one_line(tjGetErrorStr2(decoder.get())); };

    Still still;
    int subsampling = 0;
    int colour_space = 0;
    if (tjDecompressHeader3(decoder.get(), data, bytes.size(), &still.width, &still.height, &subsampling,
                            &colour_space) != 0 &&
        tjGetErrorCode(decoder.get()) == TJERR_FATAL)
        refuse_damaged(name, message());
    if (colour_space == TJCS_CMYK || colour_space == TJCS_YCCK)
        refuse(name, "is a CMYK JPEG, made for printing",
               "save the photo as RGB, or take it from the camera again");
    require_readable_size(static_cast<std::uint64_t>(still.width), static_cast<std::uint64_t>(still.height),
                          name);
    still.grey = colour_space == TJCS_GRAY;

    JpegSegments segments = read_jpeg_segments(bytes, name);
    still.icc = std::move(segments.icc);
    still.exif = std::move(segments.exif);
    still.facts.jpeg_quality = segments.quality;

    still.samples =
        sample_storage(static_cast<std::size_t>(still.width) * static_cast<std::size_t>(still.height) * 3);
    const int failed = tjDecompress2(decoder.get(), data, bytes.size(),
                                     reinterpret_cast<unsigned char*>(still.samples.data()), still.width, 0,
                                     still.height, TJPF_RGB, decode_flags);
    if (failed &&
        (tjGetErrorCode(decoder.get()) == TJERR_FATAL || !is_harmless(message()) || !ends_properly(bytes)))
        refuse_damaged(name, message());
    return still;
}

}  // namespace tonemend
