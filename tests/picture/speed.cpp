// How long a photo takes to read, beside what its decoder alone takes and what OpenCV takes.
#include <turbojpeg.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <functional>
#include <memory>
#include <opencv2/imgcodecs.hpp>

#include "picture/read_picture.h"
#include "picture/write_picture.h"
#include "support.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

double milliseconds(const std::function<void()>& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
}

void decode_alone(const std::vector<std::byte>& jpeg) {
    const auto* const data = reinterpret_cast<const unsigned char*>(jpeg.data());
    tjhandle decoder = tjInitDecompress();
    int width = 0, height = 0, sampling = 0, space = 0;
    tjDecompressHeader3(decoder, data, jpeg.size(), &width, &height, &sampling, &space);
    const std::unique_ptr<unsigned char[]> pixels(
        new unsigned char[3 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height)]);
    tjDecompress2(decoder, data, jpeg.size(), pixels.get(), width, 0, height, TJPF_RGB, TJFLAG_ACCURATEDCT);
    tjDestroy(decoder);
}

}  // namespace

TEST_CASE("A 12-megapixel JPEG is read in little more than its decoder alone takes") {
    const ScratchFolder folder;
    WriteOptions options;
    options.jpeg_quality = 89;  // chroma subsampled, as most cameras do
    write_picture(make_frame(4000, 3000, SampleType::uint8), folder / "a.jpg", options);
    const auto bytes = file_content(folder / "a.jpg");
    double decoder = 1e9, ours = 1e9, opencv = 1e9;
    for (int run = 0; run < 7; ++run) {  // in turns, so that other load falls on all three
        decoder = std::min(decoder, milliseconds([&] { decode_alone(bytes); }));
        ours = std::min(ours, milliseconds([&] { read_picture(folder / "a.jpg"); }));
        opencv = std::min(opencv, milliseconds([&] { cv::imread((folder / "a.jpg").string()); }));
    }
    std::printf("12-megapixel JPEG: %.0f ms, %.2f of the decoder alone, %.2f of OpenCV\n", ours,
                ours / decoder, ours / opencv);
#if !defined(__SANITIZE_ADDRESS__) && defined(NDEBUG)
    CHECK(ours < 1.15 * decoder);
    CHECK(ours < 1.15 * opencv);
#endif
}
