#include "calibrate/model/known_patches.h"

#include <cmath>

#include "tests/catch.h"
#include "tests/support/bench_scene.h"

using namespace tonemend;

namespace {

// The six steps along the top, and one known patch that is hardly coloured below the third and fourth.
struct Scene {
    testing::BenchScene bench;
    Lab wood{52, 3, 3};
    Card card = testing::neutral_card(bench.steps);
    Calibration calibration;

    Scene() {
        bench.wood = [this](int, int) { return wood; };
        for (Patch& patch : card.patches) patch.y1 = 0.25;
        Patch known;
        known.name = "wood";
        known.x0 = 30 / 360.0, known.x1 = 90 / 360.0, known.y0 = 100 / 240.0, known.y1 = 160 / 240.0;
        known.lab = wood;
        card.patches.push_back(known);
        calibration = calibrate_on_card(bench.frame(), card,
                                        Quad{Point{0, 0}, Point{360, 0}, Point{360, 240}, Point{0, 240}});
    }
    KnownPatch patch() const {
        const auto known =
            known_patches(calibration, characterisation_prior().under(std::nullopt).linear, std::nullopt);
        REQUIRE(known.patches.size() == 1);
        return known.patches.front();
    }
};

}  // namespace

TEST_CASE("A slope of the light moves a known patch by its distance from the steps of like lightness") {
    Scene scene;
    const double slope = 2e-4;
    scene.calibration.light = {slope, 0, slope / 10};
    const KnownPatch patch = scene.patch();
    // L* 52 is a light of 0.201, between the steps of 0.32 (at x = 150) and 0.17 (at x = 210): at x = 197.6.
    // CIE 15's L*: 116 · ∛Y, Y changed by the slope times the distance.
    const double y = to_xyz(scene.wood, d50_icc).Y, steps_x = 210 - 60 * (y - 0.17) / 0.15;
    const double expected = 116.0 * std::cbrt(y) * (std::cbrt(1 + slope * (60 - steps_x)) - 1);
    CHECK(patch.by_slope(0, 0) == Approx(expected).epsilon(0.02));
    // Down the picture it is only known to a tenth of that: 100 pixels from the steps' middle at y = 30.
    CHECK(patch.by_slope(0, 1) == Approx(116.0 / 3 * std::cbrt(y) * slope / 10 * 100).epsilon(0.02));
}

TEST_CASE("Light that a flat picture has evened out has no slope left") {
    Scene scene;
    scene.calibration.light = {1e-3, 1e-3, 1e-4};
    scene.calibration.flat_field.emplace();
    CHECK(scene.patch().by_slope.norm() == 0);
}
