#include <cmath>

#include "picture/input_error.h"
#include "practice/fault_light.h"
#include "practice/lamp_gradient.h"
#include "practice/picture_style.h"
#include "practice/scene.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

PracticeOptions small_faulty_picture() {
    PracticeOptions options;
    options.width = 400, options.height = 300;
    return options;
}

RawPicture even(int width, int height, const std::array<float, 3>& rgb) {
    RawPicture picture{width, height, {}};
    for (int i = 0; i < width * height; ++i) picture.rgb.insert(picture.rgb.end(), rgb.begin(), rgb.end());
    return picture;
}

}  // namespace

TEST_CASE("Bands take their percentage from crest to trough, and come once a period") {
    PracticeOptions options = small_faulty_picture();
    options.faults.banding_percent = 20, options.faults.banding_period = 0.1;
    RawPicture picture = even(400, 300, {1, 1, 1});
    dim_by_faults(make_scene(options), picture);
    float low = 2, high = 0;
    for (int y = 0; y < 30; ++y)
        low = std::min(low, picture.row(y)[0]), high = std::max(high, picture.row(y)[0]);
    CHECK(std::abs(high - 1.0F) < 0.002F);
    CHECK(std::abs(low - 0.8F) < 0.002F);
    CHECK(std::abs(picture.row(5)[0] - picture.row(35)[0]) < 1e-5F);
}

TEST_CASE("A shadow leaves the light beside it alone and takes its percentage within") {
    PracticeOptions options = small_faulty_picture();
    options.faults.shadow_percent = 40, options.faults.shadow_share = 0.5;
    const PracticeScene scene = make_scene(options);
    RawPicture picture = even(400, 300, {1, 1, 1});
    dim_by_faults(scene, picture);
    CHECK(std::abs(picture.row(150)[0] - 1.0F) < 1e-4F);
    CHECK(std::abs(picture.row(150)[3 * 399] - 0.6F) < 1e-4F);
}

TEST_CASE("Saturation and hue twist leave greys alone, and every colour its luminance") {
    PracticeFaults faults;
    faults.saturation = 1.5, faults.hue_twist = 20;
    RawPicture picture = even(16, 16, {0.3F, 0.3F, 0.3F});
    apply_style(faults, picture);
    for (int c = 0; c < 3; ++c) CHECK(std::abs(picture.row(8)[24 + c] - 0.3F) < 1e-5F);
    picture = even(16, 16, {0.4F, 0.3F, 0.1F});
    apply_style(faults, picture);
    const float* rgb = picture.row(8) + 24;
    // IEC 61966-2-1: Y = 0.2126 R + 0.7152 G + 0.0722 B.
    CHECK(std::abs(0.2126F * rgb[0] + 0.7152F * rgb[1] + 0.0722F * rgb[2] -
                   (0.2126F * 0.4F + 0.7152F * 0.3F + 0.0722F * 0.1F)) < 1e-5F);
}

TEST_CASE("A tint colours white and black the opposite ways") {
    PracticeFaults faults;
    faults.tint_percent = 10;
    RawPicture white = even(16, 16, {1, 1, 1}), dark = even(16, 16, {0.01F, 0.01F, 0.01F});
    apply_style(faults, white);
    apply_style(faults, dark);
    CHECK(white.rgb[0] > 1.09F);
    CHECK(white.rgb[2] < 0.91F);
    CHECK(dark.rgb[0] < 0.0095F);
    CHECK(dark.rgb[2] > 0.0105F);
}

TEST_CASE("Two lamps alike, from two sides, are one lamp") {
    PracticeOptions options = small_faulty_picture();
    options.second_lamp = options.lamp, options.second_lamp_share = 0.5;
    const RawPicture one = light_map(make_scene(options));
    options.faults.lamp_gradient = 0.8;
    const RawPicture two = light_map(make_scene(options));
    float worst = 0;
    for (std::size_t i = 0; i < one.rgb.size(); ++i)
        worst = std::max(worst, std::abs(one.rgb[i] - two.rgb[i]));
    CHECK(worst < 1e-5F);
}

TEST_CASE("The second lamp's share grows from left to right about the middle") {
    PracticeOptions options = small_faulty_picture();
    options.second_lamp = "CIE-A", options.second_lamp_share = 0.5, options.faults.lamp_gradient = 0.4;
    const PracticeScene scene = make_scene(options);
    CHECK(std::abs(second_share_at(scene, 0) - 0.3) < 1e-12);
    CHECK(std::abs(second_share_at(scene, 200) - 0.5) < 1e-12);
    CHECK(std::abs(second_share_at(scene, 400) - 0.7) < 1e-12);
}

TEST_CASE("A fault out of range is refused with its name and range, and a gradient without a second lamp") {
    PracticeOptions options = small_faulty_picture();
    options.faults.shadow_percent = 120;
    CHECK_THROWS_WITH(make_scene(options), contains("shadow in percent") && contains("0 to 95"));
    options = small_faulty_picture();
    options.faults.lamp_gradient = 0.5;
    CHECK_THROWS_WITH(make_scene(options), contains("second lamp"));
}
