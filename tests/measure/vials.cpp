#include "measure/vials.h"

#include "colour/difference.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

Comparison differing(double dL, double da, double db) {
    Comparison comparison;
    comparison.original.lab = {50, 12, 24};
    comparison.difference.dL = dL, comparison.difference.da = da, comparison.difference.db = db;
    comparison.difference.lab_u95 = {0.3, 0.4, 0.5};
    return comparison;
}

}  // namespace

TEST_CASE("The bubble stands on the side that the repair has too much of") {
    const auto vials = draw_vials(differing(+2, +2, +2));
    CHECK(vials[0].bubble < 0);
    CHECK(vials[0].left == "lighter");
    CHECK(vials[1].bubble > 0);
    CHECK(vials[1].right == "redder");
    CHECK(vials[2].bubble > 0);
    CHECK(vials[2].right == "yellower");
}

TEST_CASE("Vials share one scale, the fine one only when every difference fits it") {
    CHECK(draw_vials(differing(2.9, 0, 0))[2].scale == 3);
    const auto coarse = draw_vials(differing(3.1, 0, 0));
    for (const Vial& vial : coarse) CHECK(vial.scale == 10);
    CHECK(draw_vials(differing(-25, 0, 0))[0].bubble == 1);
}

TEST_CASE("The etched lines stand where one axis alone makes the tolerance") {
    const Comparison comparison = differing(0, 0, 0);
    const auto vials = draw_vials(comparison);
    const Lab at_line{50 + vials[0].line * vials[0].scale, 12, 24};
    CHECK(ciede2000(comparison.original.lab, at_line).value == Approx(comparison.tolerance).epsilon(1e-6));
}
