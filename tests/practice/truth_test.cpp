#include "practice/truth.h"

#include <cmath>

#include "colour/difference.h"
#include "picture/input_error.h"
#include "practice/light_map.h"
#include "practice/recipe.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

namespace {

double apart(const Lab& a, const Lab& b) {
    return ciede2000(a, b).value;
}

}  // namespace

// By hand: the spectrum of every single pixel at its own darkness, integrated, averaged, adapted.
TEST_CASE("A region's truth is the mean of its pixels' spectra") {
    double worst = 0;
    for (const char* lamp_name : {"CIE-D65", "CIE-A"}) {
        PracticeOptions options = accuracy_study(21);
        options.lamp = lamp_name;
        options.wood = "oak";
        options.region_size = 24;
        options.card_mount = CardMount::absent;
        const PracticeScene scene = make_scene(options);
        const Truth known = truth(scene);
        const std::vector<float> darkness =
            grow_grain(scene.grain, scene.board.width, scene.board.height, options.seed);
        for (const bool original : {true, false}) {
            const BoardSide& side = original ? scene.original : scene.repair;
            XYZ sum;
            for (int y = 0; y < 24; ++y)
                for (int x = 0; x < 24; ++x) {
                    const auto at =
                        static_cast<std::size_t>((side.region.y - scene.board.y + y) * scene.board.width +
                                                 side.region.x - scene.board.x + x);
                    const XYZ xyz = scene.lamp.xyz(
                        stained_reflectance(scene.wood, side.recipe, static_cast<double>(darkness[at])));
                    sum = {sum.X + xyz.X / 576, sum.Y + xyz.Y / 576, sum.Z + xyz.Z / 576};
                }
            worst =
                std::max(worst, apart(scene.lamp.lab(sum), (original ? known.original : known.repair).lab));
        }
    }
    check_tight("table of 65 nodes against each pixel's spectrum, dE2000", worst, 0.0005);
}

TEST_CASE("What the camera is shown has the mean that the truth's weights give") {
    PracticeOptions options = accuracy_study(4);
    options.card_mount = CardMount::absent;
    options.black_level = 0;
    const PracticeScene scene = make_scene(options);
    const RawPicture light = light_map(scene);
    const std::vector<float> darkness =
        grow_grain(scene.grain, scene.board.width, scene.board.height, options.seed);
    const PixelRect& r = scene.repair.region;
    Vector3 seen{};
    NodeWeights weights{};
    const double each = 1.0 / (r.width * r.height);
    for (int y = r.y; y < r.y + r.height; ++y)
        for (int x = r.x; x < r.x + r.width; ++x) {
            for (std::size_t c = 0; c < 3; ++c)
                seen[c] +=
                    each * static_cast<double>(light.row(y)[3 * x + static_cast<int>(c)]) / scene.exposure;
            const auto at =
                static_cast<std::size_t>((y - scene.board.y) * scene.board.width + x - scene.board.x);
            add_darkness(weights, static_cast<double>(darkness[at]), each);
        }
    for (std::size_t c = 0; c < 3; ++c) {
        double expected = 0;
        for (std::size_t node = 0; node < darkness_nodes; ++node)
            expected += weights[node] * scene.repair.raw[node][c];
        CHECK(seen[c] == Approx(expected).epsilon(2e-7));
    }
}

TEST_CASE("Gloss, fall-off and black level change the picture, not the truth") {
    PracticeOptions plain;
    plain.seed = 5;
    PracticeOptions spoilt = plain;
    spoilt.repair_gloss_percent = 5;
    spoilt.fall_off_percent = 20;
    spoilt.black_level = 0.02;
    const Truth a = truth(make_scene(plain));
    const Truth b = truth(make_scene(spoilt));
    CHECK(a.de2000 == b.de2000);
    CHECK(a.repair.lab.L == b.repair.lab.L);
    CHECK(light_map(make_scene(plain)).rgb != light_map(make_scene(spoilt)).rgb);
}

TEST_CASE("A repair with the same colourant is as far from the original as was asked") {
    double worst = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        PracticeOptions options = accuracy_study(seed);
        options.card_mount = CardMount::absent;
        options.difference = static_cast<double>(seed % 9);
        const PracticeScene scene = make_scene(options);
        REQUIRE(scene.original.recipe.steps.size() == scene.repair.recipe.steps.size());
        int changed = 0;
        for (std::size_t i = 0; i < scene.original.recipe.steps.size(); ++i) {
            CHECK(scene.original.recipe.steps[i].colourant == scene.repair.recipe.steps[i].colourant);
            changed += scene.original.recipe.steps[i].amount != scene.repair.recipe.steps[i].amount ? 1 : 0;
        }
        CHECK(changed <= 1);
        worst = std::max(worst, std::abs(truth(scene).de2000_wood - *options.difference));
    }
    check_tight("long-run difference against what was asked", worst, 0.01);
}

TEST_CASE("Repairs with other colourants come near the difference too, by colourants of their own") {
    double worst = 0;
    for (const PairKind kind : {PairKind::earth, PairKind::other})
        for (std::uint64_t seed = 1; seed <= 20; ++seed) {
            PracticeOptions options = accuracy_study(seed);
            options.card_mount = CardMount::absent;
            options.pair = kind;
            options.difference = 3;
            const PracticeScene scene = make_scene(options);
            for (const RecipeStep& mine : scene.repair.recipe.steps)
                for (const RecipeStep& theirs : scene.original.recipe.steps)
                    CHECK(mine.colourant != theirs.colourant);
            worst = std::max(worst, std::abs(truth(scene).de2000_wood - 3));
        }
    check_tight("long-run difference of other colourants against what was asked", worst, 0.3);
}

TEST_CASE("Ground and figure average to the wood, the figure is darker, a plain wood has none") {
    for (const char* wood : {"oak", "maple"}) {
        PracticeOptions options;
        options.wood = wood;
        options.card_mount = CardMount::absent;
        const RegionTruth known = truth(make_scene(options)).original;
        if (!known.figure) {
            CHECK(std::string(wood) == "maple");
            CHECK(known.figure_share == 0);
            CHECK(apart(known.ground, known.lab_wood) < 1e-9);
            continue;
        }
        CHECK(std::string(wood) == "oak");
        CHECK(known.figure->L < known.ground.L - 1);
        const XYZ ground = to_xyz(known.ground, d50_icc);
        const XYZ figure = to_xyz(*known.figure, d50_icc);
        const double mixed = (1 - known.figure_share) * ground.Y + known.figure_share * figure.Y;
        CHECK(mixed == Approx(to_xyz(known.lab_wood, d50_icc).Y).epsilon(1e-9));
    }
}

TEST_CASE("Options out of range are named with their range") {
    const auto message = [](const PracticeOptions& options) {
        try {
            make_scene(options);
        } catch (const InputError& error) {
            return std::string(error.what());
        }
        return std::string();
    };
    PracticeOptions options;
    options.bits = 12;
    CHECK(message(options) == "practice picture: bits is 12; give 8 or 16");
    options = {};
    options.black_level = 0.5;
    CHECK(message(options) == "practice picture: black level is 0.5; give 0 to 0.2");
    options = {};
    options.wood = "teak";
    CHECK(message(options).find("choose one of holly, pine") != std::string::npos);
    options = {};
    options.region_size = 700;
    CHECK(message(options).find("does not fit its half of the board; give at most 5") != std::string::npos);
    options = {};
    options.frame = "huge";
    CHECK(message(options).find("choose one of small, medium, large") != std::string::npos);
}
