// Each warning about card and file has a picture that must raise it.
#include "calibrate/preflight/card_warnings.h"

#include "calibrate/calibration.h"
#include "tests/catch.h"
#include "tests/support/bench_scene.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

struct CardScene {
    BenchScene scene;
    Frame frame = scene.frame();

    Calibration calibrate() const {
        return calibrate_on_card(frame, neutral_card(scene.steps), BenchScene::card_corners);
    }
    const Warning* raised(const std::string& code) const {
        static Calibration kept;
        kept = calibrate();
        return find_warning(kept.warnings, code);
    }
};

CardScene with_steps(const std::vector<double>& steps) {
    CardScene card;
    card.scene.steps = steps;
    card.frame = card.scene.frame();
    return card;
}

}  // namespace

TEST_CASE("A good six-step card raises nothing") {
    CHECK(CardScene{}.calibrate().warnings.empty());
}

TEST_CASE("Fewer than six steps cannot show the camera's tones, unless the file is raw") {
    CardScene card = with_steps({0.88, 0.17, 0.04});
    const Warning* warning = card.raised("tone-curve-unknown");
    REQUIRE(warning != nullptr);
    CHECK(warning->text.find("3 neutral steps") != std::string::npos);
    card.frame.facts.raw = true;
    CHECK(card.raised("tone-curve-unknown") == nullptr);
}

TEST_CASE("A six-step card with clipped steps is told apart from a card of few steps") {
    const CardScene card = with_steps({1.2, 0.55, 0.32, 0.17, 0.08, 0.035});
    REQUIRE(card.raised("card-clipped") != nullptr);
    const Warning* warning = card.raised("tone-curve-unknown");
    REQUIRE(warning != nullptr);
    CHECK(warning->text.find("only 5 of the card's 6") != std::string::npos);
}

TEST_CASE("A patch that is not one even grey makes the reading unfit") {
    CardScene card;
    card.frame = paint_frame(360, 240, [&](int x, int y) {
        const Lab step =
            neutral_card(card.scene.steps).patches[static_cast<std::size_t>(std::min(x / 60, 5))].lab;
        const bool shadow = x / 60 == 2 && y < 30;
        return y < 60 ? Lab{shadow ? step.L * 0.6 : step.L, 0, 0} : card.scene.wood(x, y);
    });
    const Warning* warning = card.raised("card-uneven");
    REQUIRE(warning != nullptr);
    CHECK(warning->unfit);
}

TEST_CASE("What the file says against itself is passed on") {
    CardScene card;
    card.frame.encoding.assumed = true;
    card.frame.facts.flash_fired = true;
    card.frame.facts.jpeg_quality = 60;
    for (const char* code : {"profile-assumed", "flash-fired", "jpeg-strong", "picture-shrunk"}) {
        INFO(code);
        CHECK(card.raised(code) != nullptr);
    }
}

TEST_CASE("A still without a profile is said to have none, live video, which can have none, is not") {
    CardScene card;
    card.frame.encoding = srgb_encoding(Provenance::assumed);
    CHECK(card.raised("profile-assumed") != nullptr);
    card.frame.encoding = live_video_encoding();
    CHECK_FALSE(card.frame.encoding.assumed);
    CHECK(card.raised("profile-assumed") == nullptr);
}
