#include <cmath>
#include <cstdio>
#include <cstring>
#include <limits>

#include "picture/linear_picture.h"
#include "picture/standard_encodings.h"
#include "support.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

/// IEC 61966-2-1 clause 5.2, in double precision.
double srgb_reference(double encoded) {
    return encoded <= 0.04045 ? encoded / 12.92 : std::pow((encoded + 0.055) / 1.055, 2.4);
}

double encoded(const Frame& frame, std::size_t index) {
    if (frame.type == SampleType::uint8) return std::to_integer<int>(frame.samples[index]) / 255.0;
    if (frame.type == SampleType::uint16) {
        std::uint16_t code = 0;
        std::memcpy(&code, &frame.samples[2 * index], 2);
        return code / 65535.0;
    }
    float value = 0;
    std::memcpy(&value, &frame.samples[4 * index], 4);
    return static_cast<double>(value);
}

}  // namespace

TEST_CASE("Linear light is the standard's curve, whatever the sample type, window and extra curves") {
    const ChannelCurves curves{[](double x) { return 1.1 * x; }, [](double x) { return x * x; },
                               [](double x) { return x - 0.01; }};
    double worst = 0;
    for (const SampleType type : {SampleType::uint8, SampleType::uint16, SampleType::float32}) {
        const Frame frame = make_frame(301, 203, type);
        // The large window goes through tables, the small one does not.
        for (const PixelRect window : {PixelRect{0, 0, 301, 203}, PixelRect{290, 7, 5, 6}})
            for (const ChannelCurves* extra : {static_cast<const ChannelCurves*>(nullptr), &curves}) {
                const LinearPicture linear = linear_light(frame, window, extra);
                for (int y = 0; y < window.height; ++y)
                    for (int x = 0; x < window.width; ++x)
                        for (std::size_t c = 0; c < 3; ++c) {
                            const auto index =
                                3 * static_cast<std::size_t>((window.y + y) * frame.width + window.x + x) + c;
                            double expected = srgb_reference(encoded(frame, index));
                            if (extra) expected = curves[c](expected);
                            worst =
                                std::max(worst, std::abs(expected - static_cast<double>(linear.at(x, y)[c])));
                        }
            }
    }
    std::printf("linear light: worst error %.2e\n", worst);
    CHECK(worst < 1.5e-7);  // float rounding of the encoded value and of the result
}

TEST_CASE("Clipped means a channel at either end of its range") {
    Frame frame;
    frame.width = 6;
    frame.height = 1;
    frame.encoding = srgb_encoding(Provenance::assumed);
    const std::vector<int> codes{1, 128, 254, 0, 9, 9, 9, 255, 9, 9, 9, 0, 255, 255, 255, 100, 100, 100};
    const std::vector<std::uint8_t> expected{0, 1, 1, 1, 1, 0};
    for (const int code : codes) frame.samples.push_back(static_cast<std::byte>(code));
    CHECK(linear_light(frame, {0, 0, 6, 1}).clipped == expected);

    frame.type = SampleType::uint16;
    frame.samples.clear();
    for (const int code : codes) {
        // 255 becomes 65535, 254 stays one code below it.
        const auto wide = static_cast<std::uint16_t>(code == 255 ? 65535 : code == 254 ? 65534 : code);
        frame.samples.push_back(static_cast<std::byte>(wide & 0xff));
        frame.samples.push_back(static_cast<std::byte>(wide >> 8));
    }
    CHECK(linear_light(frame, {0, 0, 6, 1}).clipped == expected);

    frame.type = SampleType::float32;
    frame.width = 5;
    const float nan = std::numeric_limits<float>::quiet_NaN();
    const std::vector<float> floats{0.1F, 0.5F, 0.9F, 0,   0.5F, 0.5F, 0.5F, 1,
                                    0.5F, 0.5F, 0.5F, nan, -1,   2,    0.5F};
    frame.samples.resize(60);
    std::memcpy(frame.samples.data(), floats.data(), 60);
    CHECK(linear_light(frame, {0, 0, 5, 1}).clipped == std::vector<std::uint8_t>{0, 1, 1, 1, 1});
}

TEST_CASE("In a raw picture a clipped pixel also spoils its neighbours, which borrow from it") {
    Frame frame = make_frame(5, 5, SampleType::uint16);
    std::fill(frame.samples.begin(), frame.samples.end(), std::byte{0x40});
    const std::size_t centre = 6 * (2 * 5 + 2);
    frame.samples[centre] = frame.samples[centre + 1] = std::byte{0xff};
    const auto count = [&] {
        int clipped = 0;
        for (const std::uint8_t pixel : linear_light(frame, {0, 0, 5, 5}).clipped) clipped += pixel;
        return clipped;
    };
    CHECK(count() == 1);
    frame.encoding.camera_native = true;
    CHECK(count() == 9);
}
