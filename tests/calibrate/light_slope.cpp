#include "calibrate/flat/light_slope.h"

#include <cmath>

#include "practice/render.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

struct Seen {
    LightSlope paper, patches;
};

Seen look(double fall_off_percent, std::uint64_t seed) {
    PracticeOptions options = accuracy_study(seed);
    options.fall_off_percent = fall_off_percent;
    options.fall_off_direction = 0;  // darker to the right
    options.tone = CameraTone::srgb;
    const PracticeScene scene = make_scene(options);
    const Frame frame = render(scene);
    const auto found = find_card(frame);
    REQUIRE(found.has_value());
    const auto patches = read_patches(frame, scene.card->card, found->window);
    return {light_on_paper(frame, *found, patches), light_on_patches(frame, patches)};
}

}  // namespace

TEST_CASE("The paper shows light that falls off across the picture, to a tenth of it") {
    for (const std::uint64_t seed : {3, 4, 5}) {
        const LightSlope slope = look(10, seed).paper;
        const double per_picture = slope.x * 1600;
        INFO("seed " << seed << ": " << 100 * per_picture << " % across the picture, u "
                     << 100 * slope.u * 1600);
        CHECK(per_picture == Approx(-0.105).margin(0.012));
        CHECK(std::abs(slope.y * 1600) < 0.008);
    }
}

TEST_CASE("Even light leaves a slope within its own uncertainty, far finer from paper than from patches") {
    for (const std::uint64_t seed : {3, 4, 5}) {
        const Seen seen = look(0, seed);
        INFO("seed " << seed << ": paper " << seen.paper.x << " ± " << seen.paper.u << ", patches "
                     << seen.patches.u);
        CHECK(std::abs(seen.paper.x) < 3 * seen.paper.u);
        CHECK(seen.paper.u < 0.4 * seen.patches.u);
    }
}

TEST_CASE("No patches at all leave what a shop's lamps usually do") {
    Frame frame;
    frame.width = 1000, frame.height = 600;
    const LightSlope slope = light_on_patches(frame, {});
    CHECK(slope.x == 0);
    CHECK(slope.u == Approx(0.03 / 1000));
}
