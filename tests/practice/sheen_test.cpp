// How finish and figured wood behave when the lamp is moved. Averages follow from the normal distributions
// that sheen.h states, worked out by hand.
#include "practice/sheen.h"

#include <cmath>

#include "picture/input_error.h"
#include "practice/render.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

namespace {

PracticeScene scene_with_lamp(double degrees, std::uint64_t seed = 4) {
    PracticeOptions options = accuracy_study(seed);
    options.width = 960, options.height = 720;
    options.lamp_from = degrees;
    options.repair_gloss_percent = 2;
    options.original_shimmer_percent = 3;
    return make_scene(options);
}

double mean(const std::vector<float>& values) {
    double sum = 0;
    for (const float value : values) sum += static_cast<double>(value);
    return sum / static_cast<double>(values.size());
}

double mean_gloss(double degrees) {
    double sum = 0;
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        const PracticeScene scene = scene_with_lamp(degrees, seed);
        sum += mean(grow_sheen(scene, scene.repair).gloss) / 12;
    }
    return sum;
}

}  // namespace

TEST_CASE("Gloss is what was asked for with the lamp at 0 degrees and fades as the lamp goes round") {
    CHECK(mean_gloss(0) == Approx(0.02).epsilon(0.05));
    CHECK(mean_gloss(30) == Approx(0.02 * std::exp(-0.5 * 900 / 850.0)).epsilon(0.15));
    CHECK(mean_gloss(-30) == Approx(0.02 * std::exp(-0.5 * 900 / 850.0)).epsilon(0.15));
    CHECK(mean_gloss(90) < 0.0005);
    CHECK(mean_gloss(350) == Approx(mean_gloss(-10)).epsilon(1e-6));
}

TEST_CASE("Shimmer leaves the mean light alone and is as strong between two lamps as the header says") {
    const PracticeScene one = scene_with_lamp(0), other = scene_with_lamp(90);
    const std::vector<float> a = grow_sheen(one, one.original).shimmer,
                             b = grow_sheen(other, other.original).shimmer;
    REQUIRE(a.size() == b.size());
    double over_boards = 0;
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        const PracticeScene scene = scene_with_lamp(0, seed);
        over_boards += mean(grow_sheen(scene, scene.original).shimmer) / 12;
    }
    // A board holds some sixty bands, so its own mean strays by 0.4 %.
    CHECK(over_boards == Approx(1).margin(0.003));
    double squares = 0;
    for (std::size_t i = 0; i < a.size(); ++i) squares += std::pow(static_cast<double>(a[i] - b[i]), 2);
    CHECK(std::sqrt(squares / static_cast<double>(a.size())) == Approx(0.03 * std::sqrt(2.0)).epsilon(0.08));
    CHECK(grow_sheen(one, one.original).gloss.empty());
    CHECK(grow_sheen(one, one.repair).shimmer.empty());
}

TEST_CASE("Without a place for the lamp gloss is an even veil, and shimmer is refused") {
    PracticeOptions options = accuracy_study(4);
    options.width = 480, options.height = 360;
    options.original_gloss_percent = 2;
    const PracticeScene scene = make_scene(options);
    CHECK(grow_sheen(scene, scene.original).gloss.empty());
    options.original_gloss_percent = 0;
    const PracticeScene matt = make_scene(options);
    const PixelRect& r = scene.original.region;
    const double added = static_cast<double>(light_map(scene).row(r.y + 1)[3 * r.x + 1] -
                                             light_map(matt).row(r.y + 1)[3 * r.x + 1]);
    CHECK(added == Approx(0.02 * scene.exposure * scene.view.white[1]).epsilon(1e-3));
    options.original_shimmer_percent = 2;
    CHECK_THROWS_AS(make_scene(options), InputError);
}

TEST_CASE(
    "Moving the lamp changes noise and the way the light falls, and leaves boards, card and truth alone") {
    PracticeScene one = scene_with_lamp(0), other = scene_with_lamp(100);
    CHECK(one.repair.recipe.steps.size() == other.repair.recipe.steps.size());
    CHECK(one.repair.raw == other.repair.raw);
    CHECK(one.original.region.x == other.original.region.x);
    CHECK(one.card->corners[2].x == other.card->corners[2].x);
    CHECK(one.light.cosine == Approx(-1));
    CHECK(other.light.cosine == Approx(-std::cos(100 * 3.14159265358979 / 180)));
}
