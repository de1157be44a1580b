#include <cmath>
#include <cstdio>
#include <cstring>
#include <opencv2/imgcodecs.hpp>

#include "picture/canvas.h"
#include "picture/icc_decoding.h"
#include "picture/linear_picture.h"
#include "picture/preview.h"
#include "picture/standard_encodings.h"
#include "support.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

DisplayPicture plain(int width, int height, std::uint8_t value) {
    return {width, height, std::vector<std::uint8_t>(static_cast<std::size_t>(3 * width * height), value)};
}

std::array<int, 3> pixel(const DisplayPicture& picture, int x, int y) {
    const auto at = 3 * static_cast<std::size_t>(y * picture.width + x);
    return {picture.rgb[at], picture.rgb[at + 1], picture.rgb[at + 2]};
}

/// Pixels that differ from a plain value.
int marked(const DisplayPicture& picture, std::uint8_t value) {
    int count = 0;
    for (std::size_t i = 0; i < picture.rgb.size(); i += 3)
        count += picture.rgb[i] != value || picture.rgb[i + 1] != value || picture.rgb[i + 2] != value;
    return count;
}

}  // namespace

TEST_CASE("The preview of an sRGB picture at full size is the picture itself") {
    const Frame frame = make_frame(120, 90, SampleType::uint8);
    const DisplayPicture preview = make_preview(frame);
    REQUIRE(preview.rgb.size() == frame.samples.size());
    CHECK(std::memcmp(preview.rgb.data(), frame.samples.data(), preview.rgb.size()) == 0);
}

TEST_CASE("A reduced preview averages light, not codes") {
    // Black and white stripes of one pixel: half the light is code 188 (IEC 61966-2-1: 1.055 · 0.5^(1/2.4) −
    // 0.055).
    Frame frame = make_frame(400, 300, SampleType::uint8);
    for (std::size_t i = 0; i < frame.samples.size(); ++i)
        frame.samples[i] = i / 3 % 2 ? std::byte{255} : std::byte{0};
    for (const int side : {200, 100, 40, 4}) {
        const DisplayPicture preview = make_preview(frame, {side, {1, 1, 1}});
        CHECK(preview.width == side);
        CHECK(preview.height == side * 3 / 4);
        CHECK(marked(preview, 188) == 0);
    }
    // At no even fraction the mean light stays.
    const DisplayPicture odd = make_preview(make_frame(401, 307, SampleType::uint16), {137, {1, 1, 1}});
    const Frame flat = make_frame(401, 307, SampleType::uint16);
    const LinearPicture linear = linear_light(flat, {0, 0, 401, 307});
    const LinearPicture small = linear_light(as_frame(odd), {0, 0, odd.width, odd.height});
    double before = 0, after = 0;
    for (const float value : linear.rgb)
        before += static_cast<double>(value) / static_cast<double>(linear.rgb.size());
    for (const float value : small.rgb)
        after += static_cast<double>(value) / static_cast<double>(small.rgb.size());
    std::printf("reduced preview: mean light %.5f, of the picture %.5f\n", after, before);
    CHECK(after == Approx(before).epsilon(2e-3));
}

TEST_CASE("A preview brings other spaces to sRGB and applies a raw frame's gains") {
    Frame frame = make_frame(8, 8, SampleType::uint8);
    frame.encoding = op_rgb_encoding("opRGB");
    std::fill(frame.samples.begin(), frame.samples.end(), std::byte{128});
    // (128/255)^(563/256) = 0.2196, and 255 · (1.055 · 0.2196^(1/2.4) − 0.055) = 129.0, from the two
    // standards.
    CHECK(pixel(make_preview(frame), 3, 3) == std::array<int, 3>{129, 129, 129});
    frame.encoding = linear_srgb_encoding(Provenance::assumed);
    for (std::size_t i = 0; i < frame.samples.size(); ++i) frame.samples[i] = std::byte{51};  // 0.2
    const auto balanced = pixel(make_preview(frame, {0, {2.5, 1, 5}}), 0, 0);
    CHECK(balanced == std::array<int, 3>{188, 124, 255});  // encoded 0.5, 0.2 and 1
}

TEST_CASE("What is drawn on a canvas is where it was asked for") {
    Canvas canvas(plain(200, 100, 200));
    CHECK(marked(canvas.picture(), 200) == 0);
    const std::array<Point, 4> box{Point{10, 10}, Point{60, 10}, Point{60, 50}, Point{10, 50}};
    canvas.outline(box, {1, 0, 0, 1}, 2);
    canvas.polygon(std::array<Point, 3>{Point{100, 10}, Point{140, 10}, Point{100, 50}}, {0, 0, 1, 1});
    canvas.line({0, 90}, {200, 90}, {0, 0, 0, 1}, 2);
    canvas.rounded_box({150, 10, 40, 40}, 10, {0, 1, 0, 0.5});
    canvas.arrow({100, 70}, {160, 70}, {1, 1, 1, 1}, 4);
    const DisplayPicture drawn = canvas.picture();
    CHECK(pixel(drawn, 10, 30) == std::array<int, 3>{255, 0, 0});
    CHECK(pixel(drawn, 30, 30) == std::array<int, 3>{200, 200, 200});
    CHECK(pixel(drawn, 105, 15) == std::array<int, 3>{0, 0, 255});
    CHECK(pixel(drawn, 139, 45) == std::array<int, 3>{200, 200, 200});
    CHECK(pixel(drawn, 100, 90) == std::array<int, 3>{0, 0, 0});
    const auto half = pixel(drawn, 170, 30);
    CHECK(std::abs(half[0] - 100) <= 1);
    CHECK(std::abs(half[1] - 228) <= 1);
    CHECK(pixel(drawn, 150, 10) == std::array<int, 3>{200, 200, 200});  // a rounded corner
    CHECK(pixel(drawn, 110, 69) == std::array<int, 3>{255, 255, 255});
    CHECK(pixel(drawn, 146, 64) == std::array<int, 3>{255, 255, 255});  // the head is wider than the shaft
    CHECK(pixel(drawn, 110, 64) == std::array<int, 3>{200, 200, 200});
}

TEST_CASE("Text stays in its measured box, grows with its size, and its figures have one width") {
    Canvas canvas(plain(400, 120, 255));
    const TextStyle style{32, {0, 0, 0, 1}, FontWeight::bold};
    const TextExtent extent = canvas.measure("ΔE₀₀ 1.23", style);
    canvas.text({20, 30}, "ΔE₀₀ 1.23", style);
    const DisplayPicture drawn = canvas.picture();
    int inside = 0;
    int outside = 0;
    for (int y = 0; y < 120; ++y)
        for (int x = 0; x < 400; ++x) {
            if (pixel(drawn, x, y) == std::array<int, 3>{255, 255, 255}) continue;
            const bool in = x >= 19 && x <= 21 + extent.width && y >= 29 && y <= 31 + extent.height;
            ++(in ? inside : outside);
        }
    CHECK(inside > 500);
    CHECK(outside == 0);
    CHECK(extent.baseline > 0.5 * extent.height);
    CHECK(canvas.measure("111.11", style).width == Approx(canvas.measure("888.00", style).width));
    CHECK(canvas.measure("8", {64, {}, FontWeight::bold}).width ==
          Approx(2 * canvas.measure("8", style).width).epsilon(0.05));
    CHECK(canvas.measure("a\nb", style).height ==
          Approx(2 * canvas.measure("a", style).height).epsilon(0.02));
    const ScratchFolder folder;
    canvas.save(folder / "drawn.png");
    CHECK(largest_difference(as_frame(drawn), cv::imread((folder / "drawn.png").string())) == 0);
}
