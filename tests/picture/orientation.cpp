#include <png.h>
#include <tiffio.h>
#include <webp/mux.h>

#include <cstdio>
#include <opencv2/imgcodecs.hpp>

#include "picture/orientation.h"
#include "picture/read_picture.h"
#include "picture/write_picture.h"
#include "support.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

/// The stored pixel that the upright picture shows at x, y, straight from the definitions of CIPA DC-008 tag
/// 274: where the stored row 0 and the stored column 0 are seen.
std::pair<int, int> stored_place(int x, int y, int width, int height, int orientation) {
    switch (orientation) {
        case 1:
            return {x, y};  // row 0 top, column 0 left
        case 2:
            return {width - 1 - x, y};  // row 0 top, column 0 right
        case 3:
            return {width - 1 - x, height - 1 - y};  // row 0 bottom, column 0 right
        case 4:
            return {x, height - 1 - y};  // row 0 bottom, column 0 left
        case 5:
            return {y, x};  // row 0 left, column 0 top
        case 6:
            return {y, width - 1 - x};  // row 0 right, column 0 top
        case 7:
            return {height - 1 - y, width - 1 - x};  // row 0 right, column 0 bottom
        default:
            return {height - 1 - y, x};  // row 0 left, column 0 bottom
    }
}

/// The stored form of an upright picture.
Frame stored(const Frame& upright, int orientation) {
    Frame result = upright;
    if (orientation >= 5) std::swap(result.width, result.height);
    const std::size_t pixel = 3 * upright.bytes_per_sample();
    for (int y = 0; y < upright.height; ++y)
        for (int x = 0; x < upright.width; ++x) {
            const auto [sx, sy] = stored_place(x, y, upright.width, upright.height, orientation);
            std::copy_n(upright.row(y) + static_cast<std::size_t>(x) * pixel, pixel,
                        result.samples.begin() +
                            static_cast<std::ptrdiff_t>(
                                (static_cast<std::size_t>(sy) * static_cast<std::size_t>(result.width) +
                                 static_cast<std::size_t>(sx)) *
                                pixel));
        }
    return result;
}

void write_png_with_exif(const std::filesystem::path& path, const Frame& frame,
                         std::vector<std::uint8_t> structure) {
    std::FILE* file = std::fopen(path.c_str(), "wb");
    REQUIRE(file);
    png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
    png_infop info = png_create_info_struct(png);
    png_init_io(png, file);
    png_set_IHDR(png, info, static_cast<png_uint_32>(frame.width), static_cast<png_uint_32>(frame.height), 8,
                 PNG_COLOR_TYPE_RGB, PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT,
                 PNG_FILTER_TYPE_DEFAULT);
    png_set_eXIf_1(png, info, static_cast<png_uint_32>(structure.size()), structure.data());
    png_write_info(png, info);
    for (int y = 0; y < frame.height; ++y)
        png_write_row(png, reinterpret_cast<png_const_bytep>(frame.row(y)));
    png_write_end(png, info);
    png_destroy_write_struct(&png, &info);
    std::fclose(file);
}

void add_exif_to_webp(const std::filesystem::path& from, const std::filesystem::path& to,
                      const std::vector<std::uint8_t>& structure) {
    const auto plain = bytes_of(from);
    const WebPData picture{plain.data(), plain.size()};
    const WebPData exif{structure.data(), structure.size()};
    WebPMux* mux = WebPMuxCreate(&picture, 0);
    REQUIRE(WebPMuxSetChunk(mux, "EXIF", &exif, 0) == WEBP_MUX_OK);
    WebPData assembled{};
    REQUIRE(WebPMuxAssemble(mux, &assembled) == WEBP_MUX_OK);
    const auto* const first = reinterpret_cast<const std::byte*>(assembled.bytes);
    put_file(to, {first, first + assembled.size});
    WebPDataClear(&assembled);
    WebPMuxDelete(mux);
}

void write_signed_tiff(const std::filesystem::path& path, const Frame& frame, int orientation) {
    TIFF* tiff = TIFFOpen(path.c_str(), "w");
    REQUIRE(tiff);
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, frame.width);
    TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, frame.height);
    TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, 3);
    TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, 8);
    TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, PHOTOMETRIC_RGB);
    TIFFSetField(tiff, TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG);
    TIFFSetField(tiff, TIFFTAG_ORIENTATION, orientation);
    TIFFSetField(tiff, TIFFTAG_MAKE, "Lumenia");
    TIFFSetField(tiff, TIFFTAG_MODEL, "Lumenia One");
    for (int y = 0; y < frame.height; ++y)
        TIFFWriteScanline(tiff, const_cast<std::byte*>(frame.row(y)), static_cast<std::uint32_t>(y), 0);
    TIFFClose(tiff);
}

}  // namespace

TEST_CASE("All eight orientations give the same upright picture, whatever the sample type") {
    for (const SampleType type : {SampleType::uint8, SampleType::uint16, SampleType::float32}) {
        const Frame upright = make_frame(150, 67, type);
        for (int orientation = 1; orientation <= 8; ++orientation) {
            INFO("orientation " << orientation);
            Frame turned = stored(upright, orientation);
            turn_upright(turned, orientation);
            CHECK(turned.width == upright.width);
            CHECK(turned.samples == upright.samples);
        }
    }
}

TEST_CASE("A JPEG is turned upright by its EXIF as OpenCV turns it, and its facts are kept") {
    const ScratchFolder folder;
    for (int orientation = 1; orientation <= 8; ++orientation) {
        INFO("orientation " << orientation);
        write_picture(make_frame(80, 48, SampleType::uint8), folder / "plain.jpg");
        put_file(folder / "turned.jpg", with_exif(file_content(folder / "plain.jpg"), orientation));
        const Frame read = read_picture(folder / "turned.jpg");
        CHECK(read.width == (orientation >= 5 ? 48 : 80));
        CHECK(largest_difference(read, cv::imread((folder / "turned.jpg").string())) <= 1);
        CHECK(read.facts.camera == "Lumenia");
        CHECK(read.facts.exposure_seconds.value() == Approx(1.0 / 50));
        CHECK(read.facts.f_number == 8.0);
        CHECK(read.facts.iso == 200.0);
        CHECK(read.facts.white_balance_automatic == false);
        CHECK(read.facts.exposure_automatic == false);
        CHECK(read.facts.flash_fired == true);
        CHECK_FALSE(read.encoding.assumed);
    }
}

TEST_CASE("EXIF is found in PNG, WebP and TIFF too, and a TIFF that a camera signed is no raw file") {
    const ScratchFolder folder;
    const Frame frame = make_frame(80, 48, SampleType::uint8);
    const auto structure = exif_structure(6);

    write_png_with_exif(folder / "a.png", frame, structure);
    write_picture(frame, folder / "plain.webp");
    add_exif_to_webp(folder / "plain.webp", folder / "a.webp", structure);
    for (const char* name : {"a.png", "a.webp"}) {
        INFO(name);
        const Frame read = read_picture(folder / name);
        CHECK(read.width == 48);
        CHECK(read.facts.camera == "Lumenia");
        CHECK(read.facts.exposure_seconds.value() == Approx(1.0 / 50));
    }

    write_signed_tiff(folder / "a.tif", frame, 6);
    const Frame read = read_picture(folder / "a.tif");
    Frame expected = frame;
    turn_upright(expected, 6);
    CHECK(read.samples == expected.samples);
    CHECK(read.facts.camera == "Lumenia One");
    CHECK_FALSE(read.facts.raw);
}

TEST_CASE("Damaged EXIF does not keep a picture from being read") {
    const ScratchFolder folder;
    write_picture(make_frame(80, 48, SampleType::uint8), folder / "plain.jpg");
    const auto plain = file_content(folder / "plain.jpg");
    const Frame expected = read_picture(folder / "plain.jpg");
    const auto sound = with_exif(plain, 1);
    const std::size_t exif_bytes = sound.size() - plain.size();
    std::size_t read = 0;
    // Each byte of the TIFF structure in turn; a changed orientation may legitimately turn the picture.
    for (std::size_t i = 12; i < 2 + exif_bytes; ++i)
        for (const unsigned change : {0x00U, 0x7fU, 0xffU}) {
            auto damaged = sound;
            damaged[i] = static_cast<std::byte>(change);
            const Frame frame = read_picture(damaged, "damaged.jpg");
            read += frame.samples.size() == expected.samples.size();
        }
    CHECK(read == 3 * (exif_bytes - 10));
}
