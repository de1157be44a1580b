// How the practice bench dries. Facts of the trade: common practice, no source; Fresnel's sums: handbook.
#include "practice/drying.h"

#include <cmath>

#include "colour/difference.h"
#include "practice/finished_wood.h"
#include "tests/catch.h"

using namespace tonemend;

// W. G. Egan, T. Hilgeman, "Optical properties of inhomogeneous materials" (1979), table of internal diffuse
// reflectance, from memory: 0.596 at 1.5; 0.47 at 1.33.
TEST_CASE("Diffuse light inside a film is turned back as Fresnel's equations say") {
    CHECK(internal_diffuse_reflection(1.0001) == Approx(0).margin(0.01));
    CHECK(internal_diffuse_reflection(1.5) == Approx(0.596).margin(0.003));
    CHECK(internal_diffuse_reflection(1.33) == Approx(0.47).margin(0.01));
    // Light that comes from outside, by symmetry: 1 − n²(1 − r) = 0.092 at 1.5 (same table).
    CHECK(1 - 2.25 * (1 - internal_diffuse_reflection(1.5)) == Approx(0.092).margin(0.004));
}

TEST_CASE("A surface with nothing on it is the body itself") {
    Bands body = make_bands([](double nm) { return 0.1 + nm / 2000; });
    const Bands bare = surface_reflectance(body, {});
    for (std::size_t i = 0; i < band_count; ++i) CHECK(bare[i] == Approx(body[i]).epsilon(1e-12));
}

TEST_CASE("Wet stain looks darker than dry, and its colour comes to rest where it is dry") {
    const Lamp lamp = make_lamp("CIE-D65");
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        const DryingPatch patch = draw_drying(45, seed % 2 == 0 ? steady_shop : rough_shop, seed);
        const Lab wet = patch.lab(lamp, 0), dry = patch.dry_lab(lamp);
        INFO("seed " << seed);
        CHECK(wet.L < dry.L - 1);
        const double settled = patch.settled_after(lamp, 0.5);
        CHECK(settled > patch.film_minutes);
        CHECK(ciede2000(patch.lab(lamp, settled), dry).value <= 0.5);
        CHECK(ciede2000(patch.lab(lamp, 0.9 * settled), dry).value > 0.5);
        CHECK(ciede2000(patch.lab(lamp, 100 * settled), dry).value < 0.1);
    }
}

TEST_CASE("While a film is there it leaves at a constant rate, then the rest ever more slowly") {
    DryingPatch patch;
    patch.wet.covered = 1, patch.wet.filled = 1;
    patch.film_minutes = 10, patch.fibre_minutes = 20;
    CHECK(patch.at(0).covered == 1);
    CHECK(patch.at(5).covered == Approx(0.5));
    CHECK(patch.at(5).filled == 1);
    CHECK(patch.at(10).covered == Approx(0).margin(1e-12));
    CHECK(patch.at(30).filled == Approx(std::exp(-1)));
    patch.order = 1.25;
    CHECK(patch.at(30).filled == Approx(std::pow(1.25, -4)));
}

TEST_CASE("Finish darkens wood, and amber finish yellows it") {
    const Lamp lamp = make_lamp("CIE-D65");
    FinishCan water_clear{0, 0, 1.5, 1.5, 0, 0.1}, amber{0.12, 0, 1.5, 1.5, 0, 0.1};
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const FinishedBoards plain = draw_finished_boards(water_clear, 3, seed);
        const FinishedBoards yellow = draw_finished_boards(amber, 3, seed);
        const Lab bare = lamp.lab(plain.bare[0]), under = lamp.lab(plain.finished[0]);
        INFO("seed " << seed);
        CHECK(under.L < bare.L - 1);
        CHECK(lamp.lab(yellow.finished[0]).b > under.b + 0.2);
    }
}
