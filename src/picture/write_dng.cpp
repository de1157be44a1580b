#include "picture/write_dng.h"

#include <cassert>
#include <new>

#include "picture/input_error.h"
#include "picture/tiff_memory.h"
#include "picture/write_picture.h"

namespace tonemend {
namespace {

constexpr std::uint16_t photometric_cfa = 32803;
constexpr std::uint16_t illuminant_d65 = 21;
constexpr const char* bench_camera_name = "Tonemend practice camera";

/// libtiff names the DNG tags but not the mosaic's of TIFF/EP.
constexpr std::uint32_t tag_cfa_repeat = 33421;
constexpr std::uint32_t tag_cfa_pattern = 33422;

void set_colour(TIFF* tiff, const SensorMosaic& mosaic) {
    float matrix[9];
    for (std::size_t i = 0; i < 9; ++i) matrix[i] = static_cast<float>(mosaic.xyz_to_camera.m[i / 3][i % 3]);
    float neutral[3];
    for (std::size_t i = 0; i < 3; ++i) neutral[i] = static_cast<float>(mosaic.neutral[i]);
    TIFFSetField(tiff, TIFFTAG_COLORMATRIX1, 9, matrix);
    TIFFSetField(tiff, TIFFTAG_ASSHOTNEUTRAL, 3, neutral);
    TIFFSetField(tiff, TIFFTAG_CALIBRATIONILLUMINANT1, illuminant_d65);
}

void set_mosaic(TIFF* tiff, const SensorMosaic& mosaic) {
    const std::uint16_t repeat[2] = {2, 2};
    const std::uint8_t pattern[4] = {0, 1, 1, 2};
    TIFFSetField(tiff, tag_cfa_repeat, repeat);
    TIFFSetField(tiff, tag_cfa_pattern, 4, pattern);
    const float black[1] = {static_cast<float>(mosaic.black_level)};
    const std::uint32_t white[1] = {mosaic.white_level};
    TIFFSetField(tiff, TIFFTAG_BLACKLEVEL, 1, black);
    TIFFSetField(tiff, TIFFTAG_WHITELEVEL, 1, white);
}

void set_layout(TIFF* tiff, const SensorMosaic& mosaic) {
    TIFFSetField(tiff, TIFFTAG_SUBFILETYPE, 0);
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, mosaic.width);
    TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, mosaic.height);
    TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, 16);
    TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, 1);
    TIFFSetField(tiff, TIFFTAG_COMPRESSION, COMPRESSION_NONE);
    TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, photometric_cfa);
    TIFFSetField(tiff, TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG);
    TIFFSetField(tiff, TIFFTAG_ORIENTATION, mosaic.orientation);
    TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP, mosaic.height);
}

void set_identity(TIFF* tiff) {
    const std::uint8_t version[4] = {1, 4, 0, 0};
    const std::uint8_t backward_version[4] = {1, 1, 0, 0};
    TIFFSetField(tiff, TIFFTAG_DNGVERSION, version);
    TIFFSetField(tiff, TIFFTAG_DNGBACKWARDVERSION, backward_version);
    TIFFSetField(tiff, TIFFTAG_MAKE, "Tonemend");
    TIFFSetField(tiff, TIFFTAG_MODEL, bench_camera_name);
    TIFFSetField(tiff, TIFFTAG_UNIQUECAMERAMODEL, bench_camera_name);
}

}  // namespace

void write_dng(const SensorMosaic& mosaic, const std::filesystem::path& path) {
    const std::size_t width = static_cast<std::size_t>(mosaic.width);
    const std::size_t height = static_cast<std::size_t>(mosaic.height);
    assert(mosaic.width >= 2 && mosaic.height >= 2 && width % 2 == 0 && height % 2 == 0);
    assert(mosaic.values.size() == width * height);
    TiffMemory memory;
    TIFF* const tiff = memory.get();
    if (!tiff) throw std::bad_alloc();
    set_layout(tiff, mosaic);
    set_identity(tiff);
    set_mosaic(tiff, mosaic);
    set_colour(tiff, mosaic);
    for (std::size_t y = 0; y < height; ++y) {
        // libtiff takes the row as writable but, on machines of the file's own byte order, only reads it.
        auto* const row = const_cast<std::uint16_t*>(mosaic.values.data() + y * width);
        if (TIFFWriteScanline(tiff, row, static_cast<std::uint32_t>(y), 0) < 0) break;
    }
    if (!memory.error().empty())
        throw InputError(path.string() + ": cannot be written as DNG (" + memory.error() + ")");
    write_whole_file(path, memory.finish());
}

}  // namespace tonemend
