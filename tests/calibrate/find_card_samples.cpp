#include <algorithm>
#include <cstdint>

#include "colour/srgb_curve.h"
#include "find_card_scene.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

TEST_CASE("the card is found in 16-bit and float samples where it is in 8-bit ones") {
    const CardFrame& frame = card_frames()[0];
    std::mt19937 random(31);
    const View view = choose_view(frame, random);
    const PrintedSheet sheet = print_card_frame(frame);
    const Frame bytes = take_picture(draw_wood(random), &sheet, view, random);
    const auto expected = find_card(bytes);
    REQUIRE(expected);

    const auto convert = [&](auto scale, SampleType type) {
        using Sample = decltype(scale);
        Frame picture = bytes;
        picture.type = type;
        picture.samples.resize(bytes.samples.size() * sizeof(Sample));
        for (std::size_t i = 0; i < bytes.samples.size(); ++i) {
            const auto sample = static_cast<Sample>(scale * static_cast<Sample>(bytes.samples[i]));
            std::copy_n(reinterpret_cast<const std::byte*>(&sample), sizeof sample,
                        picture.samples.data() + i * sizeof sample);
        }
        return picture;
    };
    for (const Frame& picture :
         {convert(std::uint16_t{257}, SampleType::uint16), convert(1.0F / 255, SampleType::float32)}) {
        const auto found = find_card(picture);
        REQUIRE(found);
        CHECK(corner_error(found->window, expected->window) < 0.002);
    }
}

TEST_CASE("the card is found in dark linear camera RGB") {
    const CardFrame& frame = card_frames()[1];
    std::mt19937 random(57);
    const View view = choose_view(frame, random);
    const PrintedSheet sheet = print_card_frame(frame);
    Frame picture = take_picture(draw_wood(random), &sheet, view, random);
    const std::vector<std::byte> encoded = picture.samples;
    picture.type = SampleType::uint16;
    picture.samples.resize(2 * encoded.size());
    for (std::size_t i = 0; i < encoded.size(); ++i) {
        constexpr double exposure = 0.06;  // four stops under
        const double linear = decode_srgb(static_cast<double>(encoded[i]) / 255);
        const auto sample = static_cast<std::uint16_t>(65535 * exposure * linear + 0.5);
        std::copy_n(reinterpret_cast<const std::byte*>(&sample), 2, picture.samples.data() + 2 * i);
    }
    picture.encoding.decoding = nullptr;
    picture.encoding.camera_native = true;
    const auto found = find_card(picture);
    REQUIRE(found);
    CHECK(corner_error(found->window, true_window(frame, view)) < 0.05);
}
