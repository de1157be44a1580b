#include <cmath>
#include <cstdio>
#include <cstring>

#include "colour/rgb_space.h"
#include "picture/linear_picture.h"
#include "picture/read_picture.h"
#include "picture/write_dng.h"
#include "support.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

constexpr std::uint16_t black = 512;
constexpr std::uint16_t white = 16000;

/// Flat red, green and blue, as fractions of the way from black to saturation.
SensorMosaic flat_mosaic(int width, int height, const std::array<double, 3>& level) {
    SensorMosaic mosaic;
    mosaic.width = width;
    mosaic.height = height;
    mosaic.black_level = black;
    mosaic.white_level = white;
    mosaic.xyz_to_camera = inverse(rgb_to_xyz(srgb));  // a camera that sees as sRGB does
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const std::size_t channel = static_cast<std::size_t>((y % 2) + (x % 2));
            mosaic.values.push_back(
                static_cast<std::uint16_t>(std::lround(black + level[channel] * (white - black))));
        }
    return mosaic;
}

}  // namespace

TEST_CASE("A DNG gives back the sensor's linear values, unbalanced and unbrightened") {
    const ScratchFolder folder;
    double worst = 0;
    for (const std::array<double, 3> level : {std::array{0.5, 0.5, 0.5}, std::array{0.2, 0.9, 0.05},
                                              std::array{0.02, 0.01, 0.03}, std::array{0.99, 0.3, 0.7}}) {
        write_dng(flat_mosaic(64, 48, level), folder / "a.dng");
        const Frame frame = read_picture(folder / "a.dng");
        CHECK(frame.encoding.camera_native);
        CHECK_FALSE(frame.encoding.assumed);
        CHECK(frame.facts.raw);
        CHECK(frame.type == SampleType::uint16);
        REQUIRE(frame.width == 64);
        REQUIRE(frame.height == 48);
        const LinearPicture linear = linear_light(frame, {0, 0, 64, 48});
        for (std::size_t i = 0; i < linear.rgb.size(); ++i)
            worst = std::max(worst, std::abs(static_cast<double>(linear.rgb[i]) - level[i % 3]));
        for (const std::uint8_t clipped : linear.clipped) REQUIRE(clipped == 0);
    }
    std::printf("DNG round trip: worst error %.2e of saturation\n", worst);
    // Half a sensor code, 1/15488, and LibRaw's cut to a whole 16-bit code.
    CHECK(worst < 0.5 / (white - black) + 1.0 / 65535);
}

TEST_CASE("The scale of a raw picture does not depend on what it shows") {
    const ScratchFolder folder;
    auto mosaic = flat_mosaic(64, 48, {0.25, 0.25, 0.25});
    write_dng(mosaic, folder / "dim.dng");
    mosaic.values[1000] = static_cast<std::uint16_t>(black + 0.95 * (white - black));
    write_dng(mosaic, folder / "spot.dng");
    const Frame dim = read_picture(folder / "dim.dng");
    const Frame spot = read_picture(folder / "spot.dng");
    CHECK(std::memcmp(dim.row(0), spot.row(0), static_cast<std::size_t>(dim.width) * 6) == 0);
}

TEST_CASE("Raw pixels at saturation and at black count as clipped") {
    const ScratchFolder folder;
    write_dng(flat_mosaic(32, 32, {1.0, 0.5, 0.5}), folder / "a.dng");
    Frame frame = read_picture(folder / "a.dng");
    for (const std::uint8_t clipped : linear_light(frame, {0, 0, 32, 32}).clipped) CHECK(clipped == 1);
    write_dng(flat_mosaic(32, 32, {0.0, 0.5, 0.5}), folder / "b.dng");
    frame = read_picture(folder / "b.dng");
    for (const std::uint8_t clipped : linear_light(frame, {0, 0, 32, 32}).clipped) CHECK(clipped == 1);
}

TEST_CASE("The camera's matrix takes balanced camera RGB to XYZ, and white to the D50 white") {
    const ScratchFolder folder;
    auto mosaic = flat_mosaic(32, 32, {0.5, 0.5, 0.5});
    // Twice the green of a camera that sees as sRGB does: balanced, it is the same camera.
    const Matrix3 camera = Matrix3::diagonal(1, 2, 1) * mosaic.xyz_to_camera;
    double worst = 0;
    for (const Matrix3& matrix : {mosaic.xyz_to_camera, camera}) {
        mosaic.xyz_to_camera = matrix;
        write_dng(mosaic, folder / "a.dng");
        const Matrix3 read = read_picture(folder / "a.dng").encoding.to_xyz_d50;
        const Matrix3 expected = rgb_to_xyz_d50(srgb);
        for (std::size_t row = 0; row < 3; ++row)
            for (std::size_t column = 0; column < 3; ++column)
                worst = std::max(worst, std::abs(read.m[row][column] - expected.m[row][column]));
    }
    std::printf("camera matrix: worst element error %.2e\n", worst);
    // The file holds the matrix in ten-thousandths or better; LibRaw's own sRGB matrix has six digits.
    CHECK(worst < 2e-4);
}

TEST_CASE("The gains that make daylight neutral are those of the matrix for D65") {
    // DNG 1.4, chapter 6: ColorMatrix1 under D65 takes the XYZ of D65 to the camera's neutral.
    const ScratchFolder folder;
    auto mosaic = flat_mosaic(32, 32, {0.5, 0.5, 0.5});
    mosaic.xyz_to_camera = Matrix3::diagonal(0.5, 1, 0.625) * mosaic.xyz_to_camera;
    mosaic.neutral = {0.9, 1, 0.2};  // as shot under another light
    write_dng(mosaic, folder / "a.dng");
    const auto balance = read_picture(folder / "a.dng").encoding.native_balance;
    CHECK(std::abs(balance[0] - 2.0) < 1e-3);
    CHECK(std::abs(balance[1] - 1.0) < 1e-6);
    CHECK(std::abs(balance[2] - 1.6) < 1e-3);
}

TEST_CASE("A raw picture is turned upright") {
    const ScratchFolder folder;
    auto mosaic = flat_mosaic(64, 32, {0.2, 0.2, 0.2});
    for (int y = 0; y < 8; ++y)  // a bright block at the stored top-left
        for (int x = 0; x < 8; ++x) mosaic.values[static_cast<std::size_t>(y * 64 + x)] = 12000;
    struct Corner {
        int orientation, width, x, y;
    };
    for (const Corner corner :
         {Corner{1, 64, 4, 4}, Corner{3, 64, 60, 28}, Corner{6, 32, 28, 4}, Corner{8, 32, 4, 60}}) {
        INFO("orientation " << corner.orientation);
        mosaic.orientation = corner.orientation;
        write_dng(mosaic, folder / "a.dng");
        const Frame frame = read_picture(folder / "a.dng");
        REQUIRE(frame.width == corner.width);
        const LinearPicture linear = linear_light(frame, {0, 0, frame.width, frame.height});
        CHECK(linear.at(corner.x, corner.y)[1] > 0.6F);
        CHECK(linear.at(frame.width / 2, frame.height / 2)[1] < 0.3F);
    }
}
