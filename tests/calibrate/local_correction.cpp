#include "calibrate/model/local_correction.h"

#include <cmath>

#include "calibrate/calibration.h"
#include "picture/input_error.h"
#include "tests/catch.h"
#include "tests/support/bench_scene.h"

using namespace tonemend;

namespace {

SampleReading sample(const Lab& seen, const Lab& stated, SampleSide side = SampleSide::either) {
    SampleReading reading;
    reading.seen = seen;
    reading.sample.lab = stated;
    reading.sample.side = side;
    reading.u = {0.3, 0.3, 0.3};
    return reading;
}

const LocalPrior prior{{1, 1, 1}, {0.5, 0.5, 0.5}};

}  // namespace

TEST_CASE("At a sample of the same material the correction is the textbook's share of the departure") {
    // Normal prior and one observation: σ²/(σ² + u²) of it, and σ²u²/(σ² + u²) is left (JCGM 100, 4.1 and any
    // book on statistics).
    const Lab seen{50, 10, 20};
    const LocalCorrection correction(prior, {sample(seen, {51, 10, 20}, SampleSide::original)});
    CHECK(correction.correct(seen, SampleSide::original).L == Approx(50 + 1 / 1.09).epsilon(1e-12));
    CHECK(correction.covariance(seen, seen)[0](0, 0) == Approx(0.09 / 1.09).epsilon(1e-12));
    // Half correlated with the other material: half of it.
    CHECK(correction.correct(seen, SampleSide::repair).L == Approx(50 + 0.5 / 1.09).epsilon(1e-12));
}

TEST_CASE("Far from every sample nothing is corrected") {
    const LocalCorrection correction(prior, {sample({50, 10, 20}, {51, 11, 21})});
    const Lab far = correction.correct({90, -60, -60}, SampleSide::original);
    CHECK(std::abs(far.L - 90) + std::abs(far.a + 60) + std::abs(far.b + 60) < 1e-6);
}

TEST_CASE("A mistyped sample among three is the one that is left out") {
    const LocalCorrection correction(
        prior, {sample({50, 10, 20}, {50.6, 10.1, 20.4}), sample({48, 12, 22}, {48.5, 12.3, 27.4}),
                sample({53, 9, 19}, {53.5, 9.2, 19.5})});
    REQUIRE(correction.samples().size() == 3);
    CHECK_FALSE(correction.samples()[0].left_out);
    CHECK(correction.samples()[1].left_out);
    CHECK_FALSE(correction.samples()[2].left_out);
    CHECK(correction.samples()[1].expected.b == Approx(22.4).margin(0.2));
}

TEST_CASE("Samples that agree within their instrument are all used") {
    const LocalCorrection correction(
        prior, {sample({50, 10, 20}, {50.6, 10.1, 20.4}), sample({48, 12, 22}, {48.1, 12.5, 22.0})});
    for (const SampleReading& reading : correction.samples()) CHECK_FALSE(reading.left_out);
}

TEST_CASE("A sample in a picture pulls the reading to what the instrument says, and a typo is warned of") {
    const testing::BenchScene scene;
    const Frame frame = scene.frame();
    const Card card = testing::neutral_card(scene.steps);
    CalibrationInputs inputs;
    // The original is painted as 52 14 27.
    inputs.samples = {parse_sample("original:20,90,60,60=52.0,14.5,27.8")};
    const Calibration with = calibrate_on_card(frame, card, testing::BenchScene::card_corners, inputs);
    const Comparison corrected = compare_regions(frame, with, scene.original, scene.repair);
    CHECK(corrected.original.lab.b == Approx(27.8).margin(0.1));
    // Never better than the instrument, better than without it.
    const Calibration without = calibrate_on_card(frame, card, testing::BenchScene::card_corners);
    const Comparison plain = compare_regions(frame, without, scene.original, scene.repair);
    CHECK(corrected.original.lab_u95[2] > 1.96 * 0.28);
    CHECK(corrected.original.lab_u95[2] < 0.5 * plain.original.lab_u95[2]);
    CHECK(testing::find_warning(corrected.warnings, "sample-disagrees") == nullptr);
    inputs.samples = {parse_sample("original:20,90,60,60=52.0,14.5,72.8")};
    const Calibration typo = calibrate_on_card(frame, card, testing::BenchScene::card_corners, inputs);
    CHECK(typo.local.empty());
    CHECK(testing::find_warning(typo.warnings, "sample-disagrees") != nullptr);
}

TEST_CASE("A sample that cannot be read as one is refused in a line that shows how") {
    for (const char* text : {"10,10,20,20", "10,10,20,20=50,1", "10,10,20,20=50,1,2,3", "10,10,20,20=150,1,2",
                             "=50,1,2", "somewhere:10,10,20,20=50,1,2", "10,10,20,20=50,nan,2"})
        CHECK_THROWS_AS(parse_sample(text), InputError);
    const ColourSample sample = parse_sample("repair:10,10,20,20=50.5,-1,2");
    CHECK(sample.side == SampleSide::repair);
    CHECK(sample.lab.a == -1);
}
