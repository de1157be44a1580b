// Pictures with the lamp moved, from the practice bench, whose truth is known.
#include "measure/gloss.h"

#include <fmt/format.h>

#include <cmath>
#include <memory>
#include <opencv2/imgproc.hpp>

#include "measure/gloss_map.h"
#include "picture/input_error.h"
#include "practice/render.h"
#include "practice/truth.h"
#include "tests/catch.h"
#include "tests/support/bench_scene.h"

using namespace tonemend;
using testing::find_warning;

namespace {

PracticeOptions glossy_options(double lamp, std::uint64_t seed = 6) {
    PracticeOptions options;
    options.seed = seed;
    options.width = 800, options.height = 600;
    options.difference = 3;
    options.repair_gloss_percent = 2;
    options.lamp_from = lamp;
    return options;
}

struct LampShot {
    Frame frame;
    PracticeScene scene;
};

LampShot shoot(const PracticeOptions& options) {
    LampShot shot{{}, make_scene(options)};
    shot.frame = render(shot.scene);
    shot.frame.name = fmt::format("lamp-{:.0f}.tif", options.lamp_from.value_or(0));
    return shot;
}

LampPosition calibrated(const Frame& frame) {
    LampPosition position;
    position.frame = &frame;
    const auto found = find_card(frame);
    REQUIRE(found);
    position.card = *found;
    position.calibration = calibrate_on_card(frame, read_card(locate_card("six-step-card")), *found);
    return position;
}

GlossResult measure(const LampShot& one, const LampShot& other) {
    return measure_gloss({calibrated(one.frame), calibrated(other.frame)},
                         rectangle(one.scene.original.region), rectangle(one.scene.repair.region));
}

// The frame as a camera sees it that has moved by dx, dy pixels.
void move_camera(Frame& frame, double dx, double dy) {
    cv::Mat samples(frame.height, frame.width, CV_16UC3, frame.samples.data());
    const cv::Mat map = (cv::Mat_<double>(2, 3) << 1, 0, dx, 0, 1, dy);
    cv::Mat result;
    cv::warpAffine(samples, result, map, samples.size(), cv::INTER_CUBIC, cv::BORDER_REPLICATE);
    result.copyTo(samples);
}

void check_refused(const std::vector<LampPosition>& positions, const LampShot& first,
                   const std::string& says) {
    try {
        measure_gloss(positions, rectangle(first.scene.original.region),
                      rectangle(first.scene.repair.region));
        FAIL("was not refused");
    } catch (const InputError& error) {
        CHECK_THAT(error.what(), contains(says));
    }
}

}  // namespace

TEST_CASE("The gloss of one region goes away with a second place of the lamp, and its sheen is told") {
    const LampShot one = shoot(glossy_options(0)), other = shoot(glossy_options(100));
    const GlossResult result = measure(one, other);
    const double known = truth(one.scene).de2000;
    const double before = std::abs(result.with_gloss.difference.de2000 - known),
                 after = std::abs(result.without_gloss.difference.de2000 - known);
    CHECK(before > 0.5);
    CHECK(after < 0.25);
    CHECK(after <= result.without_gloss.difference.de2000_u95);
    CHECK(result.sheen.verdict == SheenVerdict::repair_glossier);
    CHECK(result.repair.gloss == Approx(0.02).margin(0.005));
    CHECK(result.original.gloss < 0.003);
    CHECK(result.shift_px < 0.1);
    CHECK(find_warning(result.without_gloss.warnings, "lamp-not-moved") == nullptr);
}

TEST_CASE("It does not matter which of the pictures comes first, nor that the camera was moved a little") {
    const LampShot one = shoot(glossy_options(0));
    LampShot other = shoot(glossy_options(100));
    const GlossResult straight = measure(one, other), turned = measure(other, one);
    CHECK(turned.without_gloss.difference.de2000 ==
          Approx(straight.without_gloss.difference.de2000).margin(0.08));
    CHECK(turned.sheen.verdict == SheenVerdict::repair_glossier);
    move_camera(other.frame, 5.3, -3.6);
    const GlossResult moved = measure(one, other);
    CHECK(moved.without_gloss.difference.de2000 ==
          Approx(straight.without_gloss.difference.de2000).margin(0.12));
    CHECK(moved.sheen.verdict == SheenVerdict::repair_glossier);
    CHECK(moved.shift_px < 0.3);
}

TEST_CASE("A mirrored lamp that is pure white in one picture is read from the other") {
    PracticeOptions options = glossy_options(0);
    options.repair_gloss_percent = 0;
    options.exposure = 0.98;
    options.faults.glint_percent = 100;
    const LampShot glint = shoot(options);
    options.faults.glint_percent = 0;
    options.lamp_from = 100;
    const LampShot plain = shoot(options);
    const GlossResult result = measure(glint, plain);
    REQUIRE(result.with_gloss.repair.rejected_clipped > 500);
    CHECK(result.without_gloss.repair.rejected_clipped == 0);
    const double miss = std::abs(result.without_gloss.difference.de2000 - truth(glint.scene).de2000);
    CHECK(miss < 0.3);
    CHECK(miss <= result.without_gloss.difference.de2000_u95);
}

TEST_CASE("Figure that shimmers in the original alone is missed in the repair") {
    PracticeOptions options = glossy_options(10, 9);
    options.original_shimmer_percent = 4;
    const LampShot one = shoot(options);
    options.lamp_from = 100;
    const GlossResult result = measure(one, shoot(options));
    CHECK(result.figure == FigureVerdict::lost);
    CHECK(result.original.shimmer == Approx(0.04).margin(0.015));
    CHECK(result.original_shimmer_de2000 > 0.3);
}

TEST_CASE("Two pictures under one lamp say nothing of gloss, and are told so") {
    PracticeOptions options = glossy_options(90);
    options.repair_gloss_percent = 0;
    const LampShot one = shoot(options);
    options.noise = 1.01;
    const GlossResult result = measure(one, shoot(options));
    CHECK(find_warning(result.without_gloss.warnings, "lamp-not-moved") != nullptr);
    CHECK(result.sheen.verdict == SheenVerdict::undecided);
    CHECK(result.figure == FigureVerdict::undecided);
    CHECK(result.without_gloss.difference.de2000 == Approx(result.with_gloss.difference.de2000).margin(0.1));
}

TEST_CASE("Pictures that cannot serve are refused with the cure") {
    PracticeOptions options = glossy_options(0);
    options.wood = "oak";
    const LampShot one = shoot(options);
    options.lamp_from = 100;
    const LampShot other = shoot(options);
    check_refused({calibrated(one.frame)}, one, "two or more");
    Frame twin = one.frame;
    twin.name = "twin.tif";
    check_refused({calibrated(one.frame), calibrated(twin)}, one, "the same picture as lamp-0.tif");
    PracticeOptions elsewhere = options;
    elsewhere.seed = 61;
    elsewhere.rotation = 0;
    const LampShot stranger = shoot(elsewhere);
    check_refused({calibrated(one.frame), calibrated(stranger.frame)}, one, "lamp-100.tif");
    PracticeOptions larger = options;
    larger.frame = "small";
    const LampShot framed = shoot(larger);
    check_refused({calibrated(one.frame), calibrated(framed.frame)}, one, "another card frame");
}

TEST_CASE("The map of gloss is light where the lamp is mirrored and dark beside it") {
    const LampShot one = shoot(glossy_options(0)), other = shoot(glossy_options(100));
    const GlossMap map = map_gloss({calibrated(one.frame), calibrated(other.frame)});
    CHECK(map.columns * map.rows == static_cast<int>(map.gloss.size()));
    const auto mean_over = [&](const PixelRect& r) {
        double sum = 0;
        int count = 0;
        for (int y = r.y / map.side + 1; y < (r.y + r.height) / map.side; ++y)
            for (int x = r.x / map.side + 1; x < (r.x + r.width) / map.side; ++x, ++count)
                sum += static_cast<double>(map.at(x, y));
        return sum / count;
    };
    CHECK(mean_over(one.scene.repair.region) == Approx(0.02).margin(0.006));
    CHECK(mean_over(one.scene.original.region) < 0.006);
}
