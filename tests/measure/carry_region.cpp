#include "measure/carry_region.h"

#include <cmath>

#include "picture/input_error.h"
#include "practice/render.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

struct FramedTake {
    Frame frame;
    Calibration calibration;
    std::optional<FoundCard> card;

    explicit FramedTake(const PracticeOptions& options) : frame(render(make_scene(options))) {
        card = find_card(frame);
        REQUIRE(card);
        calibration = calibrate_on_card(frame, read_card(locate_card("six-step-card")), *card);
    }
    FramedPicture framed() const { return {&frame, &calibration, card}; }
    FramedPicture frameless() const { return {&frame, &calibration, std::nullopt}; }
};

PracticeOptions small(const char* lamp, int width = 800, int height = 600) {
    PracticeOptions options;
    options.seed = 7;
    options.wood = "oak";
    options.width = width, options.height = height;
    options.lamp = lamp;
    options.pair_lamp = "CIE-D65";
    return options;
}

}  // namespace

TEST_CASE("A region is carried over by the card frames, and keeps its pixels where one is missing") {
    const FramedTake day(small("CIE-D65")), bulb(small("CIE-A"));
    const Region region = rectangle({100, 350, 120, 100});
    const PlacedRegion carried = carry_region(day.framed(), bulb.framed(), region, "--original-2");
    CHECK(carried.origin == RegionOrigin::carried);
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(std::abs(carried.region.corners[i].x - region.corners[i].x) < 0.2);
        CHECK(std::abs(carried.region.corners[i].y - region.corners[i].y) < 0.2);
    }
    const PlacedRegion same = carry_region(day.framed(), bulb.frameless(), region, "--original-2");
    CHECK(same.origin == RegionOrigin::same_pixels);
    CHECK(same.region.corners[2].x == region.corners[2].x);
}

TEST_CASE("A region that can't be carried over is refused with the option that says where it is") {
    const FramedTake day(small("CIE-D65")), smaller(small("CIE-A", 640, 480));
    const Region region = rectangle({100, 350, 120, 100});
    const auto refused = [&](const FramedPicture& other, const Region& asked) {
        try {
            carry_region(day.framed(), other, asked, "--repair-2");
        } catch (const InputError& error) {
            return std::string(error.what()).find("--repair-2") != std::string::npos;
        }
        return false;
    };
    CHECK(refused(smaller.frameless(), region));
    CHECK(refused(smaller.framed(), rectangle({0, 0, 5000, 4000})));
}
