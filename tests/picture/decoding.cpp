// Every decoder against OpenCV's imread, an independent reader of the same files.
#include <tiffio.h>
#include <turbojpeg.h>
#include <webp/encode.h>

#include <cmath>
#include <cstdio>
#include <opencv2/imgcodecs.hpp>

#include "picture/read_picture.h"
#include "picture/write_picture.h"
#include "support.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

cv::Mat opencv_reads(const std::filesystem::path& path) {
    return cv::imread(path.string(), cv::IMREAD_UNCHANGED | cv::IMREAD_COLOR | cv::IMREAD_ANYDEPTH);
}

struct TiffKind {
    const char* description;
    int compression;
    bool tiled;
    bool planar;
    int predictor;
};

/// Written by libtiff directly, since OpenCV writes neither tiles nor planes.
void write_tiff(const std::filesystem::path& path, const Frame& frame, const TiffKind& kind) {
    TIFF* tiff = TIFFOpen(path.c_str(), "w");
    REQUIRE(tiff);
    const std::size_t size = frame.bytes_per_sample();
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, frame.width);
    TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, frame.height);
    TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, 3);
    TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, static_cast<int>(8 * size));
    TIFFSetField(tiff, TIFFTAG_SAMPLEFORMAT,
                 frame.type == SampleType::float32 ? SAMPLEFORMAT_IEEEFP : SAMPLEFORMAT_UINT);
    TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, PHOTOMETRIC_RGB);
    TIFFSetField(tiff, TIFFTAG_COMPRESSION, kind.compression);
    TIFFSetField(tiff, TIFFTAG_PLANARCONFIG, kind.planar ? PLANARCONFIG_SEPARATE : PLANARCONFIG_CONTIG);
    if (kind.predictor > 1) TIFFSetField(tiff, TIFFTAG_PREDICTOR, kind.predictor);
    const int side = kind.tiled ? 32 : 11;
    if (kind.tiled) {
        TIFFSetField(tiff, TIFFTAG_TILEWIDTH, side);
        TIFFSetField(tiff, TIFFTAG_TILELENGTH, side);
    } else {
        TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP, side);
    }
    const int block_width = kind.tiled ? side : frame.width;
    const std::size_t channels = kind.planar ? 1 : 3;
    for (int plane = 0; plane < (kind.planar ? 3 : 1); ++plane)
        for (int top = 0; top < frame.height; top += side)
            for (int left = 0; left < frame.width; left += block_width) {
                std::vector<std::byte> block(static_cast<std::size_t>(block_width) *
                                             static_cast<std::size_t>(side) * channels * size);
                const int rows = std::min(side, frame.height - top);
                for (int y = 0; y < rows; ++y)
                    for (int x = 0; x < std::min(block_width, frame.width - left); ++x)
                        for (std::size_t c = 0; c < channels; ++c)
                            for (std::size_t b = 0; b < size; ++b)
                                block[((static_cast<std::size_t>(y * block_width + x)) * channels + c) *
                                          size +
                                      b] = frame.row(top + y)[(static_cast<std::size_t>(left + x) * 3 + c +
                                                               static_cast<std::size_t>(plane)) *
                                                                  size +
                                                              b];
                const auto sample = static_cast<std::uint16_t>(plane);
                const auto x = static_cast<std::uint32_t>(left);
                const auto y = static_cast<std::uint32_t>(top);
                if (kind.tiled)
                    TIFFWriteEncodedTile(tiff, TIFFComputeTile(tiff, x, y, 0, sample), block.data(),
                                         static_cast<tmsize_t>(block.size()));
                else
                    TIFFWriteEncodedStrip(tiff, TIFFComputeStrip(tiff, y, sample), block.data(),
                                          static_cast<tmsize_t>(static_cast<std::size_t>(block_width * rows) *
                                                                channels * size));
            }
    TIFFClose(tiff);
}

}  // namespace

TEST_CASE("PNG of 8 and 16 bits, colour, grey and opaque alpha read exactly as OpenCV reads them") {
    const ScratchFolder folder;
    for (const SampleType type : {SampleType::uint8, SampleType::uint16}) {
        const Frame frame = make_frame(123, 77, type);
        cv::Mat grey, alpha;
        const cv::Mat colour = as_opencv(frame);
        cv::extractChannel(colour, grey, 1);
        std::vector<cv::Mat> planes;
        cv::split(colour, planes);
        planes.push_back(
            cv::Mat(grey.size(), grey.type(), cv::Scalar(type == SampleType::uint8 ? 255 : 65535)));
        cv::merge(planes, alpha);
        for (const cv::Mat& picture : {colour, grey, alpha}) {
            cv::imwrite((folder / "a.png").string(), picture);
            const cv::Mat expected =
                cv::imread((folder / "a.png").string(), cv::IMREAD_COLOR | cv::IMREAD_ANYDEPTH);
            CHECK(largest_difference(read_picture(folder / "a.png"), expected) == 0);
        }
    }
}

TEST_CASE("TIFF in strips, tiles and planes, 8 and 16 bit and float, reads exactly what was written") {
    const ScratchFolder folder;
    const TiffKind kinds[] = {{"strips", COMPRESSION_NONE, false, false, 1},
                              {"strips, LZW", COMPRESSION_LZW, false, false, 1},
                              {"tiles", COMPRESSION_NONE, true, false, 1},
                              {"tiles, deflate", COMPRESSION_ADOBE_DEFLATE, true, false, 1},
                              {"planes", COMPRESSION_NONE, false, true, 1},
                              {"planes in tiles", COMPRESSION_LZW, true, true, 1},
                              {"predictor", COMPRESSION_ADOBE_DEFLATE, false, false, 2}};
    for (const SampleType type : {SampleType::uint8, SampleType::uint16, SampleType::float32})
        for (TiffKind kind : kinds) {
            INFO(kind.description << ", sample type " << static_cast<int>(type));
            const Frame frame = make_frame(101, 67, type);
            if (kind.predictor == 2 && type == SampleType::float32) kind.predictor = 3;
            write_tiff(folder / "a.tif", frame, kind);
            const Frame read = read_picture(folder / "a.tif");
            CHECK(largest_difference(read, as_opencv(frame)) == 0);
            // OpenCV reads no planes and floats only without tiles and predictor.
            if (!kind.planar && type != SampleType::float32)
                CHECK(largest_difference(read, opencv_reads(folder / "a.tif")) == 0);
        }
}

TEST_CASE("Lossless WebP reads exactly, lossy WebP as OpenCV reads it") {
    const ScratchFolder folder;
    const Frame frame = make_frame(90, 61, SampleType::uint8);
    for (const int quality : {101, 80}) {  // over 100 is lossless
        cv::imwrite((folder / "a.webp").string(), as_opencv(frame), {cv::IMWRITE_WEBP_QUALITY, quality});
        const Frame read = read_picture(folder / "a.webp");
        CHECK(largest_difference(read, opencv_reads(folder / "a.webp")) == 0);
        if (quality > 100) CHECK(largest_difference(read, as_opencv(frame)) == 0);
    }
}

TEST_CASE("JPEG at every subsampling, baseline and progressive, colour and grey, reads as OpenCV reads it") {
    const ScratchFolder folder;
    const Frame frame = make_frame(131, 75, SampleType::uint8);
    double worst = 0;
    for (const int progressive : {0, 1})
        for (const int quality : {60, 95}) {
            cv::imwrite((folder / "a.jpg").string(), as_opencv(frame),
                        {cv::IMWRITE_JPEG_QUALITY, quality, cv::IMWRITE_JPEG_PROGRESSIVE, progressive});
            worst = std::max(
                worst, largest_difference(read_picture(folder / "a.jpg"), opencv_reads(folder / "a.jpg")));
        }
    cv::Mat grey;
    cv::extractChannel(as_opencv(frame), grey, 0);
    cv::imwrite((folder / "a.jpg").string(), grey);
    worst = std::max(worst, largest_difference(read_picture(folder / "a.jpg"),
                                               cv::imread((folder / "a.jpg").string(), cv::IMREAD_COLOR)));
    std::printf("JPEG against OpenCV: worst difference %.0f codes\n", worst);
    // Both are libjpeg with the same transform here; another decoder's rounding may differ by a code (T.81
    // and ISO 10918-2 allow it).
    CHECK(worst <= 1);
    for (const int sampling : {TJSAMP_444, TJSAMP_422, TJSAMP_420, TJSAMP_440, TJSAMP_411}) {
        tjhandle compressor = tjInitCompress();
        unsigned char* buffer = nullptr;
        unsigned long size = 0;
        REQUIRE(tjCompress2(compressor, reinterpret_cast<const unsigned char*>(frame.samples.data()),
                            frame.width, 0, frame.height, TJPF_RGB, &buffer, &size, sampling, 85, 0) == 0);
        const auto* const first = reinterpret_cast<const std::byte*>(buffer);
        put_file(folder / "b.jpg", {first, first + size});
        tjFree(buffer);
        tjDestroy(compressor);
        CHECK(largest_difference(read_picture(folder / "b.jpg"), opencv_reads(folder / "b.jpg")) <= 1);
    }
}

TEST_CASE("The quality of a JPEG is told from its tables") {
    // OpenCV writes through libjpeg, whose scaling rule is the one that the estimate inverts.
    const ScratchFolder folder;
    const Frame frame = make_frame(32, 32, SampleType::uint8);
    for (int quality = 5; quality <= 100; quality += 5) {
        cv::imwrite((folder / "a.jpg").string(), as_opencv(frame), {cv::IMWRITE_JPEG_QUALITY, quality});
        CHECK(read_picture(folder / "a.jpg").facts.jpeg_quality == quality);
    }
}

TEST_CASE("What the writers write, the readers and OpenCV read back") {
    const ScratchFolder folder;
    for (const SampleType type : {SampleType::uint8, SampleType::uint16, SampleType::float32})
        for (const char* name : {"a.png", "a.tif", "a.webp"}) {
            const std::string extension = std::string(name).substr(2);
            if (type == SampleType::float32 && extension != "tif") continue;
            if (type == SampleType::uint16 && extension == "webp") continue;
            INFO(name << " of sample type " << static_cast<int>(type));
            const Frame frame = make_frame(57, 43, type);
            write_picture(frame, folder / name);
            CHECK(largest_difference(read_picture(folder / name), as_opencv(frame)) == 0);
            CHECK(largest_difference(frame, opencv_reads(folder / name)) == 0);
        }
    // No temporary file stays behind.
    std::size_t files = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder.path()))
        files += entry.is_regular_file();
    CHECK(files == 3);
}
