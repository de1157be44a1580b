#include <png.h>

#include <bit>
#include <csetjmp>
#include <new>
#include <string>

#include "picture/encoders.h"
#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

// A little above the fastest: photographs gain little from more.
constexpr int compression_level = 3;

struct Sink {
    EncodedBytes bytes;
    std::string error;
};

void on_write_error(png_structp png, png_const_charp message) {
    static_cast<Sink*>(png_get_error_ptr(png))->error = message;
    longjmp(png_jmpbuf(png), 1);
}

void on_write_warning(png_structp, png_const_charp) {}

void on_bytes(png_structp png, png_bytep data, png_size_t size) {
    auto& bytes = static_cast<Sink*>(png_get_io_ptr(png))->bytes;
    const auto* const first = reinterpret_cast<const std::byte*>(data);
    bytes.insert(bytes.end(), first, first + size);
}

void on_flush(png_structp) {}

/// libpng leaves by longjmp, so nothing with a destructor lives in here.
bool write(png_structp png, png_infop info, const Frame& frame, const WriteOptions& options) {
    if (setjmp(png_jmpbuf(png))) return false;
    const int depth = frame.type == SampleType::uint16 ? 16 : 8;
    png_set_IHDR(png, info, static_cast<png_uint_32>(frame.width), static_cast<png_uint_32>(frame.height),
                 depth, PNG_COLOR_TYPE_RGB, PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT,
                 PNG_FILTER_TYPE_DEFAULT);
    png_set_compression_level(png, compression_level);
    if (!options.icc_profile.empty())
        png_set_iCCP(png, info, "ICC profile", PNG_COMPRESSION_TYPE_BASE, options.icc_profile.data(),
                     static_cast<png_uint_32>(options.icc_profile.size()));
    png_write_info(png, info);
    if (depth == 16 && std::endian::native == std::endian::little) png_set_swap(png);
    for (int y = 0; y < frame.height; ++y)
        png_write_row(png, reinterpret_cast<png_const_bytep>(frame.row(y)));
    png_write_end(png, info);
    return true;
}

}  // namespace

EncodedBytes encode_png(const Frame& frame, const WriteOptions& options) {
    if (frame.type == SampleType::float32)
        throw InputError("PNG cannot hold floating-point samples; end the name in .tif");
    Sink sink;
    png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, &sink, on_write_error, on_write_warning);
    if (!png) throw std::bad_alloc();
    png_infop info = png_create_info_struct(png);
    png_set_write_fn(png, &sink, on_bytes, on_flush);
    const bool written = info && write(png, info, frame, options);
    png_destroy_write_struct(&png, &info);
    if (!written) throw InputError("cannot be written as PNG (" + one_line(sink.error) + ")");
    return std::move(sink.bytes);
}

}  // namespace tonemend
