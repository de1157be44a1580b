#include "calibrate/tone/steps.h"

#include <cmath>

#include "picture/input_error.h"
#include "picture/standard_encodings.h"
#include "tests/catch.h"
#include "tests/support/painted_frame.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

// A linear picture of the steps as a camera with a lifted black and half exposure sees them.
double camera(double light) {
    return 0.02 + 0.5 * light;
}

struct Shot {
    Frame frame;
    std::vector<PatchReading> patches;
};

Shot shoot(const std::vector<double>& reflectances) {
    Shot shot;
    shot.frame.name = "steps";
    shot.frame.encoding = linear_srgb_encoding(Provenance::stated);
    shot.frame.type = SampleType::float32;
    for (const Patch& patch : neutral_card(reflectances).patches) {
        PatchReading reading;
        reading.patch = patch;
        const double light = to_xyz(patch.lab, d50_icc).Y;
        reading.mean = {camera(light), camera(light), camera(light)};
        reading.pixels = 1000;
        shot.patches.push_back(reading);
    }
    return shot;
}

double worst_error(const ToneCurve& curve) {
    double worst = 0;
    for (const double light : {0.01, 0.02, 0.04, 0.18, 0.5, 0.9}) {
        worst = std::max(worst, std::abs(curve(camera(light)) / light - 1));
    }
    return worst;
}

ToneCurve green_curve(const Shot& shot, std::optional<double> black = std::nullopt) {
    return fit_curves(shot.frame, shot.patches, black)[1];
}

}  // namespace

TEST_CASE("The right black level never makes a linear camera's reading worse, whatever the number of steps") {
    for (const std::vector<double>& steps : {std::vector<double>{0.9, 0.18, 0.04},
                                             {0.9, 0.4, 0.18, 0.08, 0.04},
                                             {0.9, 0.6, 0.4, 0.18, 0.08, 0.04},
                                             {0.18}}) {
        const ToneCurve curve = green_curve(shoot(steps), 0.02);
        INFO(steps.size() << " steps");
        CHECK(worst_error(curve) < 1e-3);
        CHECK(curve.points().size() == steps.size());
    }
}

TEST_CASE("Five steps and a black level are still five steps") {
    CHECK(green_curve(shoot({0.9, 0.4, 0.18, 0.08, 0.04}), 0.02).kind() == CurveKind::offset_and_gain);
}

TEST_CASE("A lifted black in a dim picture is found from three steps") {
    CHECK(worst_error(green_curve(shoot({0.9, 0.18, 0.035}))) < 1e-9);
}

TEST_CASE("Two patches of the same grey count as one step, and a card may repeat its white") {
    const ToneCurve curve = green_curve(shoot({0.9, 0.18, 0.9, 0.04}));
    CHECK(curve.points().size() == 3);
    CHECK(worst_error(curve) < 1e-9);
}

TEST_CASE("A patch that reflects nothing gives the black level and is no step") {
    const ToneCurve curve = green_curve(shoot({0.9, 0.18, 0.0}));
    CHECK(curve.points().size() == 2);
    CHECK(curve.offset() == Approx(0.02));
    CHECK(worst_error(curve) < 1e-9);
}

TEST_CASE("Steps in the wrong order are refused with what to do") {
    Shot shot = shoot({0.9, 0.18, 0.04});
    std::swap(shot.patches[0].mean, shot.patches[2].mean);
    CHECK_THROWS_WITH(green_curve(shot), contains("turn the card"));
}

TEST_CASE("A clipped step is not used") {
    Shot shot = shoot({0.9, 0.4, 0.18, 0.04});
    shot.patches[0].clipped = 500;
    shot.patches[0].mean = {0.4, 0.4, 0.4};
    CHECK(green_curve(shot).points().size() == 3);
}

TEST_CASE("A black level as light as a step, or out of range, is refused") {
    CHECK_THROWS_WITH(green_curve(shoot({0.9, 0.18, 0.04}), 0.05), contains("as dark as black"));
    CHECK_THROWS_WITH(green_curve(shoot({0.9, 0.18, 0.04}), 7.0), contains("--black-level"));
}
