#include <webp/encode.h>
#include <webp/mux.h>

#include <memory>

#include "picture/encoders.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

struct FreeWebp {
    void operator()(std::uint8_t* buffer) const { WebPFree(buffer); }
};
struct CloseMux {
    void operator()(WebPMux* mux) const { WebPMuxDelete(mux); }
};

EncodedBytes copied(const std::uint8_t* data, std::size_t size) {
    const auto* const first = reinterpret_cast<const std::byte*>(data);
    return EncodedBytes(first, first + size);
}

EncodedBytes with_profile(const std::uint8_t* webp, std::size_t size,
                          const std::vector<std::uint8_t>& profile) {
    const WebPData picture{webp, size};
    const std::unique_ptr<WebPMux, CloseMux> mux(WebPMuxCreate(&picture, 0));
    const WebPData chunk{profile.data(), profile.size()};
    WebPData assembled{};
    if (!mux || WebPMuxSetChunk(mux.get(), "ICCP", &chunk, 0) != WEBP_MUX_OK ||
        WebPMuxAssemble(mux.get(), &assembled) != WEBP_MUX_OK)
        throw InputError("the ICC profile cannot be written into a WebP; write a .tif");
    EncodedBytes bytes = copied(assembled.bytes, assembled.size);
    WebPDataClear(&assembled);
    return bytes;
}

}  // namespace

EncodedBytes encode_webp(const Frame& frame, const WriteOptions& options) {
    if (frame.type != SampleType::uint8)
        throw InputError("WebP holds 8-bit samples only; end the name in .png or .tif");
    std::uint8_t* buffer = nullptr;
    const std::size_t size =
        WebPEncodeLosslessRGB(reinterpret_cast<const std::uint8_t*>(frame.samples.data()), frame.width,
                              frame.height, 3 * frame.width, &buffer);
    const std::unique_ptr<std::uint8_t, FreeWebp> owner(buffer);
    if (size == 0) throw InputError("cannot be written as WebP (at most 16383 × 16383 pixels); write a .png");
    if (options.icc_profile.empty()) return copied(buffer, size);
    return with_profile(buffer, size, options.icc_profile);
}

}  // namespace tonemend
