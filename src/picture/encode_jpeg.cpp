#include <turbojpeg.h>

#include <algorithm>
#include <memory>
#include <new>
#include <string_view>

#include "picture/encoders.h"
#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

constexpr int full_chroma_from_quality = 90;
constexpr std::string_view icc_segment_label{"ICC_PROFILE\0", 12};
constexpr std::size_t most_in_segment = 65533 - 14;

struct CloseJpegWriter {
    void operator()(void* handle) const { tjDestroy(handle); }
};
struct FreeTurboJpeg {
    void operator()(unsigned char* buffer) const { tjFree(buffer); }
};

void append_byte(EncodedBytes& bytes, std::size_t value) {
    bytes.push_back(static_cast<std::byte>(value & 0xff));
}

/// The profile as APP2 segments (ICC.1:2022, B.4).
EncodedBytes icc_segments(const std::vector<std::uint8_t>& profile) {
    EncodedBytes bytes;
    const std::size_t count = (profile.size() + most_in_segment - 1) / most_in_segment;
    if (count > 255) throw InputError("the ICC profile is too large for a JPEG; write a .tif");
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t first = i * most_in_segment;
        const std::size_t size = std::min(most_in_segment, profile.size() - first);
        append_byte(bytes, 0xff);
        append_byte(bytes, 0xe2);
        append_byte(bytes, (size + 16) >> 8);
        append_byte(bytes, size + 16);
        for (const char character : icc_segment_label)
            append_byte(bytes, static_cast<unsigned char>(character));
        append_byte(bytes, i + 1);
        append_byte(bytes, count);
        for (std::size_t j = 0; j < size; ++j) append_byte(bytes, profile[first + j]);
    }
    return bytes;
}

/// Where the segments after the start marker and its JFIF header begin.
std::size_t after_jfif(const unsigned char* jpeg, std::size_t size) {
    if (size > 6 && jpeg[2] == 0xff && jpeg[3] == 0xe0)
        return std::min<std::size_t>(size, std::size_t{4} + (std::size_t{jpeg[4]} << 8) + jpeg[5]);
    return 2;
}

}  // namespace

EncodedBytes encode_jpeg(const Frame& frame, const WriteOptions& options) {
    if (frame.type != SampleType::uint8)
        throw InputError("JPEG holds 8-bit samples only; end the name in .png or .tif");
    const std::unique_ptr<void, CloseJpegWriter> compressor(tjInitCompress());
    if (!compressor) throw std::bad_alloc();
    unsigned char* buffer = nullptr;
    unsigned long size = 0;
    const int sampling = options.jpeg_quality >= full_chroma_from_quality ? TJSAMP_444 : TJSAMP_420;
    const int failed =
        tjCompress2(compressor.get(), reinterpret_cast<const unsigned char*>(frame.samples.data()),
                    frame.width, 0, frame.height, TJPF_RGB, &buffer, &size, sampling,
                    std::clamp(options.jpeg_quality, 1, 100), TJFLAG_ACCURATEDCT);
    const std::unique_ptr<unsigned char, FreeTurboJpeg> owner(buffer);
    if (failed)
        throw InputError("cannot be written as JPEG (" + one_line(tjGetErrorStr2(compressor.get())) + ")");

    const std::size_t split = after_jfif(buffer, size);
    const auto* const first = reinterpret_cast<const std::byte*>(buffer);
    EncodedBytes bytes(first, first + split);
    const EncodedBytes icc = icc_segments(options.icc_profile);
    bytes.insert(bytes.end(), icc.begin(), icc.end());
    bytes.insert(bytes.end(), first + split, first + size);
    return bytes;
}

}  // namespace tonemend
