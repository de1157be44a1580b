// What a file says about its numbers is heeded, in the order: profile, the format's own fields, EXIF, custom.
#include <png.h>
#include <tiffio.h>

#include <cmath>
#include <cstdio>
#include <cstring>
#include <opencv2/imgcodecs.hpp>

#include "colour/rgb_space.h"
#include "picture/input_error.h"
#include "picture/linear_picture.h"
#include "picture/read_picture.h"
#include "picture/write_picture.h"
#include "support.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

enum class PngColour { none, srgb_chunk, gamma_and_primaries };

struct PngKind {
    int colour_type = PNG_COLOR_TYPE_RGB;
    int depth = 8;
    int interlace = PNG_INTERLACE_NONE;
    PngColour colour = PngColour::none;
};

/// Rows of a regular pattern, written by libpng itself.
void write_png(const std::filesystem::path& path, const PngKind& kind) {
    constexpr png_uint_32 width = 37, height = 29;
    std::FILE* file = std::fopen(path.c_str(), "wb");
    REQUIRE(file);
    png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
    png_infop info = png_create_info_struct(png);
    png_init_io(png, file);
    png_set_IHDR(png, info, width, height, kind.depth, kind.colour_type, kind.interlace,
                 PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
    std::vector<png_color> palette;
    for (int i = 0; i < 1 << std::min(kind.depth, 8); ++i)
        palette.push_back(
            {static_cast<png_byte>(i * 7), static_cast<png_byte>(255 - i), static_cast<png_byte>(i * 3)});
    if (kind.colour_type == PNG_COLOR_TYPE_PALETTE)
        png_set_PLTE(png, info, palette.data(), static_cast<int>(palette.size()));
    if (kind.colour == PngColour::srgb_chunk) png_set_sRGB(png, info, PNG_sRGB_INTENT_PERCEPTUAL);
    if (kind.colour == PngColour::gamma_and_primaries) {
        png_set_gAMA(png, info, 1 / 1.8);
        png_set_cHRM(png, info, 0.3457, 0.3585, 0.7347, 0.2653, 0.1596, 0.8404, 0.0366, 0.0001);
    }
    png_write_info(png, info);
    const std::size_t row_bytes = png_get_rowbytes(png, info);
    std::vector<png_byte> data(row_bytes * height);
    for (std::size_t i = 0; i < data.size(); ++i) data[i] = static_cast<png_byte>(i * i / 7 + i);
    std::vector<png_bytep> rows;
    for (std::size_t y = 0; y < height; ++y) rows.push_back(data.data() + y * row_bytes);
    png_write_image(png, rows.data());
    png_write_end(png, info);
    png_destroy_write_struct(&png, &info);
    std::fclose(file);
}

struct GreyTiff {
    int photometric = PHOTOMETRIC_MINISBLACK;
    int channels = 1;
    int extra_kind = -1;
    std::vector<std::uint8_t> row;
};

void write_grey_tiff(const std::filesystem::path& path, const GreyTiff& kind) {
    TIFF* tiff = TIFFOpen(path.c_str(), "w");
    REQUIRE(tiff);
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, static_cast<int>(kind.row.size()) / kind.channels);
    TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, 1);
    TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, kind.channels);
    TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, 8);
    TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, kind.photometric);
    const std::uint16_t extra[1] = {static_cast<std::uint16_t>(kind.extra_kind)};
    if (kind.extra_kind >= 0) TIFFSetField(tiff, TIFFTAG_EXTRASAMPLES, 1, extra);
    auto row = kind.row;
    TIFFWriteScanline(tiff, row.data(), 0, 0);
    TIFFClose(tiff);
}

std::vector<int> codes(const Frame& frame) {
    std::vector<int> result;
    for (const std::byte sample : frame.samples) result.push_back(std::to_integer<int>(sample));
    return result;
}

}  // namespace

TEST_CASE("PNG of every colour type, depth and interlacing reads as OpenCV reads it") {
    const ScratchFolder folder;
    for (const int interlace : {PNG_INTERLACE_NONE, PNG_INTERLACE_ADAM7}) {
        for (const int depth : {1, 2, 4, 8})
            for (const int type : {PNG_COLOR_TYPE_GRAY, PNG_COLOR_TYPE_PALETTE}) {
                INFO("type " << type << " depth " << depth << " interlace " << interlace);
                write_png(folder / "a.png", {type, depth, interlace, PngColour::none});
                CHECK(largest_difference(read_picture(folder / "a.png"),
                                         cv::imread((folder / "a.png").string(), cv::IMREAD_COLOR)) == 0);
            }
        for (const int depth : {8, 16})
            for (const int type : {PNG_COLOR_TYPE_GRAY, PNG_COLOR_TYPE_RGB}) {
                write_png(folder / "a.png", {type, depth, interlace, PngColour::none});
                CHECK(largest_difference(read_picture(folder / "a.png"),
                                         cv::imread((folder / "a.png").string(),
                                                    cv::IMREAD_COLOR | cv::IMREAD_ANYDEPTH)) == 0);
            }
    }
}

TEST_CASE("PNG says sRGB, or gamma and primaries, or nothing") {
    const ScratchFolder folder;
    write_png(folder / "a.png", {});
    CHECK(read_picture(folder / "a.png").encoding.assumed);
    CHECK(read_picture(folder / "a.png").encoding.description == "sRGB (assumed, no profile)");
    write_png(folder / "a.png", {PNG_COLOR_TYPE_RGB, 8, PNG_INTERLACE_NONE, PngColour::srgb_chunk});
    CHECK_FALSE(read_picture(folder / "a.png").encoding.assumed);

    write_png(folder / "a.png", {PNG_COLOR_TYPE_RGB, 8, PNG_INTERLACE_NONE, PngColour::gamma_and_primaries});
    const ColourEncoding stated = read_picture(folder / "a.png").encoding;
    CHECK_FALSE(stated.assumed);
    const float half[3] = {0.5F, 0.25F, 1};
    float linear[3];
    stated.decoding->decode(half, linear, 1);
    // The chunk holds 1/gamma in hundred-thousandths (PNG, 11.3.2.2).
    CHECK(linear[0] == Approx(std::pow(0.5, 1.8)).epsilon(2e-5));
    CHECK(linear[1] == Approx(std::pow(0.25, 1.8)).epsilon(4e-5));
    CHECK(linear[2] == Approx(1));
    const Matrix3 expected = rgb_to_xyz_d50(romm_rgb);
    for (std::size_t i = 0; i < 9; ++i)
        CHECK(stated.to_xyz_d50.m[i / 3][i % 3] == Approx(expected.m[i / 3][i % 3]).margin(1e-5));
}

TEST_CASE("A floating-point TIFF is linear light as it stands") {
    const ScratchFolder folder;
    const Frame frame = make_frame(20, 10, SampleType::float32);
    write_picture(frame, folder / "a.tif");
    const Frame read = read_picture(folder / "a.tif");
    CHECK(read.encoding.assumed);
    const LinearPicture linear = linear_light(read, {0, 0, 20, 10});
    CHECK(std::memcmp(linear.rgb.data(), frame.samples.data(), frame.samples.size()) == 0);
}

TEST_CASE("EXIF that names the opRGB space of DCF is heeded") {
    const ScratchFolder folder;
    write_picture(make_frame(16, 16, SampleType::uint8), folder / "a.jpg");
    const auto jpeg = with_exif(file_content(folder / "a.jpg"), 1);
    CHECK(read_picture(jpeg, "a.jpg").encoding.description == "sRGB (stated in the file)");
    // The ColorSpace entry (a001) made uncalibrated, and the white-balance entry (a403) into a pointer to an
    // interoperability directory (a005) put behind the structure.
    std::vector<std::uint8_t> structure = exif_structure(1);
    const auto entry = [&](unsigned tag) {
        for (std::size_t i = 60; i < 144; i += 12)
            if (structure[i] == tag >> 8 && structure[i + 1] == (tag & 0xff)) return i;
        return std::size_t{0};
    };
    const std::size_t space = entry(0xa001);
    structure[space + 8] = structure[space + 9] = 0xff;
    const std::size_t pointer_entry = entry(0xa403);
    const auto directory = static_cast<std::uint8_t>(structure.size());
    const std::uint8_t pointer[12] = {0xa0, 0x05, 0, 4, 0, 0, 0, 1, 0, 0, 0, directory};
    std::copy_n(pointer, 12, structure.begin() + static_cast<std::ptrdiff_t>(pointer_entry));
    for (const std::uint8_t byte :
         {0, 1, 0, 1, 0, 2, 0, 0, 0, 4, int{'R'}, int{'0'}, int{'3'}, 0, 0, 0, 0, 0})
        structure.push_back(byte);
    const auto again = with_exif_structure(file_content(folder / "a.jpg"), structure);
    const Frame read = read_picture(again, "a.jpg");
    CHECK(read.encoding.description == "opRGB (stated in EXIF)");
    CHECK(read.encoding.to_xyz_d50.m == rgb_to_xyz_d50(op_rgb).m);
}

TEST_CASE("Grey TIFF, white-is-zero, opaque alpha and extra channels read as three channels") {
    const ScratchFolder folder;
    write_grey_tiff(folder / "a.tif", {PHOTOMETRIC_MINISBLACK, 1, -1, {0, 1, 200}});
    CHECK(codes(read_picture(folder / "a.tif")) == std::vector<int>{0, 0, 0, 1, 1, 1, 200, 200, 200});
    write_grey_tiff(folder / "a.tif", {PHOTOMETRIC_MINISWHITE, 1, -1, {0, 1, 200}});
    CHECK(codes(read_picture(folder / "a.tif")) ==
          std::vector<int>{255, 255, 255, 254, 254, 254, 55, 55, 55});
    write_grey_tiff(folder / "a.tif",
                    {PHOTOMETRIC_RGB, 4, EXTRASAMPLE_UNASSALPHA, {1, 2, 3, 255, 4, 5, 6, 255}});
    CHECK(codes(read_picture(folder / "a.tif")) == std::vector<int>{1, 2, 3, 4, 5, 6});
    // A fourth channel that is not alpha (infrared of a scanner, say) is left out.
    write_grey_tiff(folder / "a.tif",
                    {PHOTOMETRIC_RGB, 4, EXTRASAMPLE_UNSPECIFIED, {1, 2, 3, 9, 4, 5, 6, 8}});
    CHECK(codes(read_picture(folder / "a.tif")) == std::vector<int>{1, 2, 3, 4, 5, 6});
    write_grey_tiff(folder / "a.tif",
                    {PHOTOMETRIC_RGB, 4, EXTRASAMPLE_UNASSALPHA, {1, 2, 3, 255, 4, 5, 6, 254}});
    CHECK_THROWS_AS(read_picture(folder / "a.tif"), InputError);
}
