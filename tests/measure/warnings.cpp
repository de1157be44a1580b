// Each warning has a picture that must raise it; the plain scene raises none.
#include <cmath>
#include <limits>

#include "measure/normal_draws.h"
#include "tests/catch.h"
#include "tests/support/bench_scene.h"

using namespace tonemend;
using namespace tonemend::testing;

TEST_CASE("A good picture raises no warning") {
    CHECK(BenchScene{}.compare().warnings.empty());
}

TEST_CASE("Regions that overlap are named, with the share") {
    BenchScene scene;
    scene.repair = rectangle({85, 80, 150, 150});
    const Comparison comparison = scene.compare();
    const Warning* warning = find_warning(comparison.warnings, "regions-overlap");
    REQUIRE(warning != nullptr);
    CHECK(warning->text.find("50 %") != std::string::npos);
    scene.repair = rectangle({160, 80, 150, 150});
    CHECK(find_warning(scene.compare().warnings, "regions-overlap") == nullptr);
}

TEST_CASE("A region that lies on the card is named") {
    BenchScene scene;
    scene.repair = rectangle({200, 30, 100, 100});
    const Comparison comparison = scene.compare();
    const Warning* warning = find_warning(comparison.warnings, "region-on-card");
    REQUIRE(warning != nullptr);
    CHECK(warning->text.find("repair") != std::string::npos);
}

TEST_CASE("A region across the joint is not one colour, whichever way the joint runs") {
    BenchScene scene;
    scene.wood = [](int x, int) { return x < 100 ? Lab{52, 14, 27} : Lab{44, 16, 25}; };
    CHECK(find_warning(scene.compare().warnings, "not-one-colour") != nullptr);
    scene.wood = [](int, int y) { return y < 160 ? Lab{52, 14, 27} : Lab{44, 16, 25}; };
    CHECK(find_warning(scene.compare().warnings, "not-one-colour") != nullptr);
}

TEST_CASE("Wood much darker than the card's darkest step is said to be a guess") {
    BenchScene scene;
    scene.wood = [](int x, int) { return x < 180 ? Lab{14, 3, 4} : Lab{30, 10, 12}; };
    const Comparison comparison = scene.compare();
    const Warning* warning = find_warning(comparison.warnings, "beyond-steps");
    REQUIRE(warning != nullptr);
    CHECK(warning->text.find("original") != std::string::npos);
    CHECK_FALSE(warning->unfit);
}

TEST_CASE("Wood as dark as black keeps finite intervals") {
    BenchScene scene;
    scene.wood = [](int x, int) { return x < 180 ? Lab{0.5, 0, 0} : Lab{30, 10, 12}; };
    const Comparison comparison = scene.compare();
    CHECK(comparison.original.lab_u95[0] < 30);
    CHECK(comparison.unfit());
}

TEST_CASE("Light that falls off across the card and wood is named, and makes the reading unfit when strong") {
    BenchScene scene;
    scene.light = [](int x, int) { return 1.0 - 0.03 * x / 360; };
    const Comparison mild = scene.compare();
    const Warning* warning = find_warning(mild.warnings, "light-uneven");
    REQUIRE(warning != nullptr);
    CHECK_FALSE(warning->unfit);
    CHECK(find_warning(BenchScene{}.compare().warnings, "light-uneven") == nullptr);
}

TEST_CASE("Noise on a small card does not pass for uneven light") {
    for (int seed = 1; seed <= 8; ++seed) {
        NormalDraws noise(static_cast<std::uint64_t>(seed));
        BenchScene scene;
        const Card card = neutral_card({0.18});
        const Frame frame = paint_frame(360, 240, [&](int x, int y) {
            Lab lab = x < 24 && y < 24 ? card.patches[0].lab : scene.wood(x, y);
            lab.L += noise();
            return lab;
        });
        const Quad corners{Point{0, 0}, Point{24, 0}, Point{24, 24}, Point{0, 24}};
        const Comparison comparison =
            compare_regions(frame, calibrate_on_card(frame, card, corners), scene.original, scene.repair);
        INFO("seed " << seed << ", u95 " << comparison.difference.de2000_u95);
        CHECK(find_warning(comparison.warnings, "light-uneven") == nullptr);
        CHECK(comparison.difference.de2000_u95 < 2.5);
    }
}

TEST_CASE("One step that is no number in a float picture is left out like a clipped one") {
    const BenchScene scene;
    const Comparison whole = scene.compare();
    Frame frame = scene.frame();
    const float not_a_number = std::numeric_limits<float>::quiet_NaN(),
                infinite = std::numeric_limits<float>::infinity();
    const auto put = [&](int x, int y, float value) {
        const std::size_t at = 3 * (static_cast<std::size_t>(y) * 360 + static_cast<std::size_t>(x));
        std::memcpy(frame.samples.data() + at * sizeof(float), &value, sizeof value);
    };
    put(50, 120, not_a_number);
    put(60, 130, infinite);
    const Comparison holed =
        compare_regions(frame, calibrate_on_card(frame, neutral_card(scene.steps), BenchScene::card_corners),
                        scene.original, scene.repair);
    CHECK(holed.original.rejected_clipped == 2);
    CHECK(holed.original.lab.L == Approx(whole.original.lab.L).margin(1e-6));
    CHECK(std::isfinite(holed.difference.de2000_u95));
}

TEST_CASE("A region of which only a corner is unclipped still states what its grain leaves open") {
    NormalDraws noise(2);
    BenchScene scene;
    scene.wood = [&](int x, int y) {
        const bool corner = x < 19 && y < 89;
        return x < 180 && !corner ? Lab{100.5, 0, 0} : Lab{52 + 2 * noise(), 14, 27};
    };
    const Comparison comparison = scene.compare();
    CHECK(comparison.original.pixels == 81);
    CHECK(std::isfinite(comparison.original.lab_u95[0]));
    CHECK(comparison.original.sampled.covariance.m[1][1] > 0);
    CHECK(comparison.unfit());
}

TEST_CASE("What is not a number is undecided and gives no direction") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK(judge(nan, 0.1, 1.0) == Verdict::undecided);
    CHECK(judge(0.5, nan, 1.0) == Verdict::undecided);
    CHECK(find_direction({50, 10, 20}, {nan, nan, nan}, {0.1, 0.1, 0.1}).empty());
}
