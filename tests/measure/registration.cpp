#include "measure/registration.h"

#include <cmath>
#include <opencv2/imgproc.hpp>

#include "picture/input_error.h"
#include "practice/render.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

PracticeOptions small_scene(const char* lamp) {
    PracticeOptions options;
    options.seed = 7;
    options.wood = "oak";
    options.width = 1000, options.height = 750;
    options.lamp = lamp;
    options.pair_lamp = "CIE-D65";
    return options;
}

// The frame as a camera sees it that has moved by dx, dy pixels: OpenCV's cubic resampling.
Frame moved_camera(Frame frame, double dx, double dy) {
    cv::Mat samples(frame.height, frame.width, CV_16UC3, frame.samples.data());
    const cv::Mat map = (cv::Mat_<double>(2, 3) << 1, 0, dx, 0, 1, dy);
    cv::Mat result;
    cv::warpAffine(samples, result, map, samples.size(), cv::INTER_CUBIC, cv::BORDER_REPLICATE);
    result.copyTo(samples);
    return frame;
}

struct Taken {
    Frame frame;
    FoundCard card;
    Calibration calibration;
};

Taken take(Frame frame) {
    Taken taken;
    taken.frame = std::move(frame);
    const auto found = find_card(taken.frame);
    REQUIRE(found);
    taken.card = *found;
    taken.calibration = calibrate_on_card(taken.frame, read_card(locate_card("six-step-card")), *found);
    return taken;
}

}  // namespace

TEST_CASE(
    "A region is found again to a tenth of a pixel in a picture under another lamp with the camera moved") {
    const PracticeScene scene = make_scene(small_scene("CIE-D65"));
    const Taken first = take(render(scene));
    const Frame warm = render(make_scene(small_scene("CIE-A")));
    for (const auto& [dx, dy] : {std::pair{0.0, 0.0}, std::pair{3.4, -2.7}}) {
        const Taken other = take(moved_camera(warm, dx, dy));
        const Matrix3 map = register_on_card(first.card, other.card);
        const RegionMatch match = match_region(first.frame, first.calibration, other.frame, other.calibration,
                                               map, rectangle(scene.original.region));
        CHECK(match.seen);
        CHECK(match.shift_px < 0.1);
        CHECK(std::abs(match.in_other.corners[0].x - (scene.original.region.x + dx)) < 0.15);
        CHECK(std::abs(match.in_other.corners[0].y - (scene.original.region.y + dy)) < 0.15);
        CHECK(match.noise < 0.0005);
    }
}

TEST_CASE("Where the card frames are a little off the grain puts the region right") {
    const PracticeScene scene = make_scene(small_scene("CIE-D65"));
    const Taken first = take(render(scene));
    const Frame warm = render(make_scene(small_scene("CIE-A")));
    const Calibration calibration =
        calibrate_on_card(warm, read_card(locate_card("six-step-card")), find_card(warm).value());
    Matrix3 off = Matrix3::identity();
    off.m[0][2] = 1.5, off.m[1][2] = -1;
    const RegionMatch match =
        match_region(first.frame, first.calibration, warm, calibration, off, rectangle(scene.repair.region));
    CHECK(match.moved_px == Approx(std::hypot(1.5, 1)).margin(0.1));
    CHECK(std::abs(match.in_other.corners[0].x - scene.repair.region.x) < 0.1);
    CHECK(std::abs(match.in_other.corners[0].y - scene.repair.region.y) < 0.1);
}

TEST_CASE("A region that another picture does not hold is refused with the cure") {
    const PracticeScene scene = make_scene(small_scene("CIE-D65"));
    const Taken first = take(render(scene));
    Matrix3 far = Matrix3::identity();
    far.m[0][2] = 900;
    CHECK_THROWS_WITH(match_region(first.frame, first.calibration, first.frame, first.calibration, far,
                                   rectangle(scene.original.region)),
                      contains("keep the camera where it is"));
}
