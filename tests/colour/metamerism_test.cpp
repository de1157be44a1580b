#include "colour/metamerism.h"

#include "tests/catch.h"

using namespace tonemend;

TEST_CASE("The special metamerism index is the one worked out by hand") {
    // CIE 15:2018, 9.2, multiplicative correction; cubes make the roots whole (hand calculation):
    // white 1, 1, 1. First light: original 0.20, 0.25, 0.10, repair 0.25, 0.25, 0.125: factors 0.8, 1, 0.8.
    // Second light: original 0.512, 0.343, 0.125, so the roots are 0.8, 0.7, 0.5. Repair 0.91125, 0.343,
    // 0.27: corrected 0.729, 0.343, 0.216, roots 0.9, 0.7, 0.6.
    // Δa* = 500 (0.9 − 0.8) = 50, Δb* = 200 (0.5 − 0.6) = −20, ΔL* = 0: ΔE*ab = √2900 = 53.8516.
    const MetamerismIndex index =
        special_metamerism_index({{0.20, 0.25, 0.10}, {0.25, 0.25, 0.125}},
                                 {{0.512, 0.343, 0.125}, {0.91125, 0.343, 0.27}}, {1, 1, 1});
    CHECK(index.delta_e_ab == Approx(53.851648071345).epsilon(1e-10));
}

TEST_CASE("Surfaces that the change of light moves alike have no special metamerism, matching or not") {
    // CIE 15:2018, 9.2: the correction takes out what differs under the first light.
    const MetamerismIndex index = special_metamerism_index(
        {{0.2, 0.3, 0.1}, {0.4, 0.3, 0.2}}, {{0.25, 0.3, 0.05}, {0.5, 0.3, 0.1}}, {1.0985, 1, 0.3558});
    CHECK(index.delta_e_ab < 1e-9);
    CHECK(index.de2000 < 1e-9);
}
