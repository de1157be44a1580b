#include <png.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <csetjmp>
#include <cstring>
#include <new>

#include "picture/opaque.h"
#include "picture/standard_encodings.h"
#include "picture/still.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

struct PngBytes {
    std::span<const std::byte> bytes;
    std::size_t position = 0;
    std::string error;
    std::string profile_warning;
};

void on_error(png_structp png, png_const_charp message) {
    static_cast<PngBytes*>(png_get_error_ptr(png))->error = message;
    longjmp(png_jmpbuf(png), 1);
}

void on_warning(png_structp png, png_const_charp message) {
    if (std::strncmp(message, "iCCP", 4) == 0)
        static_cast<PngBytes*>(png_get_error_ptr(png))->profile_warning = message;
}

void on_read(png_structp png, png_bytep into, png_size_t size) {
    auto& source = *static_cast<PngBytes*>(png_get_io_ptr(png));
    if (size > source.bytes.size() - source.position) png_error(png, "the file ends too early");
    std::memcpy(into, source.bytes.data() + source.position, size);
    source.position += size;
}

/// libpng's reader, closed on every way out.
struct Reader {
    explicit Reader(PngBytes& source)
        : png(png_create_read_struct(PNG_LIBPNG_VER_STRING, &source, on_error, on_warning)) {
        info = png ? png_create_info_struct(png) : nullptr;
        if (!info) {
            png_destroy_read_struct(&png, nullptr, nullptr);
            throw std::bad_alloc();
        }
        png_set_read_fn(png, &source, on_read);
    }
    ~Reader() { png_destroy_read_struct(&png, &info, nullptr); }
    Reader(const Reader&) = delete;
    Reader& operator=(const Reader&) = delete;

    png_structp png = nullptr;
    png_infop info = nullptr;
};

// libpng leaves by longjmp, so the functions that set it hold nothing with a destructor.

bool read_header(png_structp png, png_infop info) {
    if (setjmp(png_jmpbuf(png))) return false;
    png_set_user_limits(png, PNG_UINT_31_MAX, PNG_UINT_31_MAX);
    png_read_info(png, info);
    return true;
}

/// Everything to 8- or 16-bit RGB or RGBA in this machine's byte order.
bool ask_for_rgb(png_structp png, png_infop info) {
    if (setjmp(png_jmpbuf(png))) return false;
    png_set_expand(png);
    png_set_gray_to_rgb(png);
    if (std::endian::native == std::endian::little) png_set_swap(png);
    png_set_interlace_handling(png);
    png_read_update_info(png, info);
    return true;
}

bool read_rows(png_structp png, png_infop info, png_bytepp rows) {
    if (setjmp(png_jmpbuf(png))) return false;
    png_read_image(png, rows);
    png_read_end(png, info);
    return true;
}

std::optional<ColourEncoding> stated_encoding(png_structp png, png_infop info) {
    int intent = 0;
    if (png_get_sRGB(png, info, &intent)) return srgb_encoding(Provenance::stated);
    double file_gamma = 0;
    if (!png_get_gAMA(png, info, &file_gamma) || !(file_gamma > 0.1 && file_gamma < 10)) return std::nullopt;
    RgbSpace space = srgb;
    Chromaticity w{}, r{}, g{}, b{};
    if (png_get_cHRM(png, info, &w.x, &w.y, &r.x, &r.y, &g.x, &g.y, &b.x, &b.y)) {
        const double spread = (r.x - b.x) * (g.y - b.y) - (g.x - b.x) * (r.y - b.y);
        if (w.y < 0.05 || std::min({r.y, g.y, b.y}) <= 0 || std::abs(spread) < 1e-3) return std::nullopt;
        space = RgbSpace{"PNG primaries", r, g, b, w};
    }
    return gamma_encoding(1 / file_gamma, space, "gamma and primaries stated in the PNG");
}

void take_profile(png_structp png, png_infop info, const PngBytes& source, const std::string& name,
                  Still& still) {
    png_charp profile_name = nullptr;
    png_bytep profile = nullptr;
    png_uint_32 length = 0;
    int compression = 0;
    if (png_get_iCCP(png, info, &profile_name, &compression, &profile, &length))
        still.icc.assign(profile, profile + length);
    else if (!source.profile_warning.empty())
        refuse(name,
               "has an embedded ICC profile that cannot be used (" + one_line(source.profile_warning) + ")",
               "convert the picture to sRGB, or save it again with a sound RGB profile");
}

void take_exif(png_structp png, png_infop info, Still& still) {
#ifdef PNG_eXIf_SUPPORTED
    png_uint_32 length = 0;
    png_bytep data = nullptr;
    if (png_get_eXIf_1(png, info, &length, &data)) still.exif.assign(data, data + length);
#else
    (void)png, (void)info, (void)still;
#endif
}

}  // namespace

Still decode_png(std::span<const std::byte> bytes, const std::string& name) {
    PngBytes source{bytes, 0, {}, {}};
    const Reader reader(source);
    png_structp png = reader.png;
    png_infop info = reader.info;
    const auto require = [&](bool done) {
        if (!done) refuse_damaged(name, one_line(source.error));
    };

    require(read_header(png, info));
    Still still;
    require_readable_size(png_get_image_width(png, info), png_get_image_height(png, info), name);
    require_enough_bytes(std::uint64_t{png_get_rowbytes(png, info)} * png_get_image_height(png, info),
                         bytes.size(), name);
    still.width = static_cast<int>(png_get_image_width(png, info));
    still.height = static_cast<int>(png_get_image_height(png, info));
    still.type = png_get_bit_depth(png, info) == 16 ? SampleType::uint16 : SampleType::uint8;
    still.grey = (png_get_color_type(png, info) & PNG_COLOR_MASK_COLOR) == 0;
    take_profile(png, info, source, name, still);
    still.encoding = stated_encoding(png, info);

    require(ask_for_rgb(png, info));
    const std::size_t row_bytes = png_get_rowbytes(png, info);
    const std::size_t height = static_cast<std::size_t>(still.height);
    still.samples.resize(row_bytes * height);
    std::vector<png_bytep> rows(height);
    for (std::size_t y = 0; y < height; ++y)
        rows[y] = reinterpret_cast<png_bytep>(still.samples.data() + y * row_bytes);
    require(read_rows(png, info, rows.data()));
    take_exif(png, info, still);

    if (png_get_channels(png, info) == 4) {
        const std::size_t pixels = static_cast<std::size_t>(still.width) * height;
        const std::size_t sample = still.type == SampleType::uint16 ? 2 : 1;
        if (!drop_opaque_alpha(still.samples.data(), pixels, sample))
            refuse(name, "is partly transparent", "flatten it onto its background and save it again");
        still.samples.resize(3 * sample * pixels);
    }
    return still;
}

}  // namespace tonemend
