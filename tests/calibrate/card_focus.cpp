#include "calibrate/preflight/card_focus.h"

#include <cmath>

#include "practice/render.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

PracticeScene blurred_scene(double pixels) {
    PracticeOptions options;
    options.seed = 4;
    options.width = 1000, options.height = 750;
    options.blur = pixels;
    options.tilt = 0, options.rotation = 3;
    return make_scene(options);
}

double patch_side(const PracticeScene& scene) {
    const Quad& card = scene.card->corners;
    const Patch& patch = scene.card->card.patches.front();
    const double width = std::hypot(card[1].x - card[0].x, card[1].y - card[0].y);
    return width * (patch.x1 - patch.x0);
}

}  // namespace

TEST_CASE("The blur of a card is measured, to a sixth, as a share of its patches' side") {
    for (const double share : {0.03, 0.05, 0.07}) {
        const double pixels = share * patch_side(blurred_scene(0));
        const PracticeScene scene = blurred_scene(pixels);
        const auto blur = measure_blur(render(scene), scene.card->card, scene.card->corners);
        REQUIRE(blur);
        INFO(share << " measured " << *blur);
        CHECK(std::abs(*blur / share - 1) < 0.17);
    }
}

TEST_CASE("A sharp card is not called out of focus, a blurred one is, with the cure") {
    const PracticeScene sharp = blurred_scene(0.8);
    CHECK_FALSE(warn_of_blur(render(sharp), sharp.card->card, sharp.card->corners));
    const PracticeScene blurred = blurred_scene(0.08 * patch_side(sharp));
    const auto warning = warn_of_blur(render(blurred), blurred.card->card, blurred.card->corners);
    REQUIRE(warning);
    CHECK(warning->code == "card-blurred");
    CHECK(warning->text.find("focus on the card") != std::string::npos);
}
