#include "calibrate/preflight/card_frame_warnings.h"

#include <algorithm>
#include <cmath>

#include "calibrate/preflight/card_size.h"
#include "calibrate/preflight/card_tilt.h"
#include "calibrate/preflight/local_tones.h"
#include "practice/render.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

PracticeOptions small_picture() {
    PracticeOptions options;
    options.seed = 11;
    options.width = 800, options.height = 600;
    options.tilt = 3, options.rotation = 5;
    return options;
}

struct Look {
    Frame frame;
    FoundCard found;
    Calibration calibration;
};

Look look_at_card(const PracticeOptions& options) {
    const PracticeScene scene = make_scene(options);
    Look look{render(scene), {}, {}};
    const auto found = find_card(look.frame);
    REQUIRE(found);
    look.found = *found;
    look.calibration = calibrate_on_card(look.frame, scene.card->card, *found);
    return look;
}

bool raises(const PracticeOptions& options, const std::string& code) {
    const std::vector<Warning> warnings = look_at_card(options).calibration.warnings;
    return std::any_of(warnings.begin(), warnings.end(), [&](const Warning& w) { return w.code == code; });
}

}  // namespace

TEST_CASE("A card that lies well raises nothing of light, focus or tilt") {
    const Look look = look_at_card(small_picture());
    CHECK(warn_of_card_frame(look.frame, look.found, look.calibration).empty());
}

TEST_CASE("Each fault of the light on the card frame is named by its own code alone") {
    PracticeOptions shadow = small_picture(), bands = shadow, mixed = shadow, local = shadow, tilted = shadow;
    shadow.faults.shadow_percent = 20, shadow.faults.shadow_share = 0.4;
    bands.faults.banding_percent = 10, bands.faults.banding_period = 0.12;
    mixed.second_lamp = "planckian:2856", mixed.second_lamp_share = 0.5, mixed.faults.lamp_gradient = 0.5;
    local.faults.local_tones = 0.25;
    tilted.tilt = 25;
    const std::vector<std::pair<PracticeOptions, std::string>> faults{{shadow, "card-shadow"},
                                                                      {bands, "light-banded"},
                                                                      {mixed, "light-mixed"},
                                                                      {local, "tones-local"},
                                                                      {tilted, "card-tilted"}};
    for (const auto& [options, code] : faults) {
        const Look look = look_at_card(options);
        const auto warnings = warn_of_card_frame(look.frame, look.found, look.calibration);
        INFO(code);
        REQUIRE(warnings.size() == 1);
        CHECK(warnings.front().code == code);
        CHECK_FALSE(warnings.front().unfit);
    }
}

TEST_CASE("How far surroundings are evened out is measured to a third") {
    PracticeOptions options = small_picture();
    options.faults.local_tones = 0.2;
    const Look look = look_at_card(options);
    const auto tones = find_local_tones(look.frame, read_paper_rim(look.frame, look.found));
    REQUIRE(tones);
    CHECK(std::abs(tones->strength / 0.2 - 1) < 0.34);
    CHECK(tones->explained > 0.9);
}

TEST_CASE(
    "A card of patches under 23 pixels is small: 16 of them are read, a square of JPEG's halved colour") {
    // ITU-T T.81, A.2: with 4:2:0 sampling a minimum coded unit is 16 × 16 pixels.
    PracticeOptions options = small_picture();
    CHECK_FALSE(raises(options, "card-small"));
    options.faults.card_size = 0.5;
    CHECK(raises(options, "card-small"));
}
