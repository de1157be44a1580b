#include "record/lamp_drawing.h"

#include <cmath>
#include <fstream>
#include <sstream>

#include "tests/catch.h"

using namespace tonemend;

namespace {

// Degrees from straight up at the work; left is negative.
double angle_of(const LampPlan& plan, const Point& at) {
    return std::atan2(at.x - plan.work.x, plan.work.y - at.y) * 180 / 3.14159265358979;
}

}  // namespace

// The law of reflection: both angles to the normal are equal, on either side of it (any textbook of optics).
TEST_CASE("In the drawing each lamp is mirrored at the angle at which its light comes in, past the camera") {
    const LampPlan plan = plan_lamps(45);
    REQUIRE(plan.lamps.size() == 2);
    CHECK(angle_of(plan, plan.camera) == Approx(0).margin(1e-9));
    for (std::size_t i = 0; i < 2; ++i) {
        CHECK(std::abs(angle_of(plan, plan.lamps[i])) == Approx(45));
        CHECK(angle_of(plan, plan.mirrored[i]) == Approx(-angle_of(plan, plan.lamps[i])));
        CHECK(std::abs(angle_of(plan, plan.mirrored[i])) > 30);
    }
    CHECK(angle_of(plan_lamps(30), plan_lamps(30).lamps[1]) == Approx(30));
}

TEST_CASE("The drawing that the README shows is the one that the program draws") {
    std::ifstream file(TONEMEND_SOURCE_DIR "/samples/lamps.svg", std::ios::binary);
    std::ostringstream kept;
    kept << file.rdbuf();
    const bool same = kept.str() == draw_lamps(plan_lamps());
    INFO("make it anew: tonemend gloss --advice --save-drawing samples/lamps.svg --force");
    CHECK(same);
    CHECK_THAT(kept.str(), contains("Film near a hot lamp melts or burns"));
}
