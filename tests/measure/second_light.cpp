#include "measure/second_light.h"

#include <cmath>

#include "colour/adaptation.h"
#include "colour/difference.h"
#include "measure/light_words.h"
#include "tests/catch.h"
#include "tests/support/bench_scene.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

KnownLight stated(const std::string& text) {
    return {text, parse_light(text), std::nullopt};
}

// The pair of these colours as a painted picture shows it.
PairUnderOne pair_of(const Lab& original, const Lab& repair, KnownLight light) {
    BenchScene scene;
    scene.wood = [=](int x, int) { return x < 180 ? original : repair; };
    const Frame frame = scene.frame();
    CalibrationInputs inputs;
    inputs.light = light.stated;
    auto calibration = std::make_shared<Calibration>(
        calibrate_on_card(frame, neutral_card(scene.steps), BenchScene::card_corners, inputs));
    // A faithful picture: its own matrix is the truth, whatever cameras do under that light.
    calibration->characterisation.model = ColourModel::of_matrix(frame.encoding.to_xyz_d50);
    return {std::move(light), calibration,
            compare_regions(frame, *calibration, scene.original, scene.repair)};
}

const Lab oak{52, 14, 27};

// The colour as CIELAB against illuminant A's own white (CIE 15: X 109.85, Z 35.585), not adapted to D50.
Lab under_illuminant_a(const Lab& adapted) {
    const WhitePoint a{1.0985, 1, 0.35585};
    return to_lab(transform(bradford(d50_icc, a), to_xyz(adapted, d50_icc)), a);
}

}  // namespace

TEST_CASE("The same pair in both lights has no index, no shift, and holds") {
    const Lab repair{52.4, 14.2, 27.3};
    const LightChange change =
        compare_lights(pair_of(oak, repair, stated("CIE-D65")), pair_of(oak, repair, stated("CIE-A")));
    CHECK(change.index.de2000 < 0.05);
    for (const double shift : change.shift) CHECK(std::abs(shift) < 0.05);
    CHECK(change.verdict == LightVerdict::holds);
    CHECK(change.warnings.empty());
}

TEST_CASE(
    "A pair that matches in light one has as its index the difference in light two, and is alarmed of") {
    // From the definition (CIE 15:2018, 9.2): with equal colours in light one the correction is by 1. The
    // index is of colours under the light itself, all else here of colours adapted to D50.
    const PairUnderOne first = pair_of(oak, oak, stated("CIE-D65")),
                       second = pair_of(oak, {50, 17, 26}, stated("CIE-A"));
    const LightChange change = compare_lights(first, second);
    const Lab one = under_illuminant_a(oak), other = under_illuminant_a({50, 17, 26});
    CHECK(change.index.de2000 == Approx(ciede2000(one, other).value).margin(0.02));
    CHECK(change.parting == Approx(second.comparison.difference.de2000).margin(0.02));
    CHECK(change.shift[0] == Approx(-2).margin(0.02));
    CHECK(change.shift[1] == Approx(3).margin(0.02));
    CHECK(change.shift[2] == Approx(-1).margin(0.02));
    CHECK(change.verdict == LightVerdict::alarm);
    CHECK(say_shift(change, "old bulb")
              .starts_with("Under old bulb the repair goes redder by 3.0, then darker by 2.0"));
}

TEST_CASE("The limits are the caller's, and are reached when the worst case of the interval reaches them") {
    const PairUnderOne first = pair_of(oak, oak, stated("CIE-D65")),
                       second = pair_of(oak, {51, 15.2, 26.5}, stated("CIE-A"));
    const LightChange change = compare_lights(first, second);
    const double worst = change.parting + change.parting_u95;
    REQUIRE(change.parting > 0.8);
    REQUIRE(change.parting_u95 > 0.05);
    CHECK(compare_lights(first, second, {worst + 0.01, worst + 1}).verdict == LightVerdict::holds);
    CHECK(compare_lights(first, second, {worst - 0.01, worst + 1}).verdict == LightVerdict::caution);
    CHECK(compare_lights(first, second, {worst - 0.02, worst - 0.01}).verdict == LightVerdict::alarm);
}

TEST_CASE("Of a pair that is far from matching the index alone alarms, and a wide interval decides nothing") {
    const Lab pale{60, 12, 25};
    PairUnderOne first = pair_of(oak, pale, stated("CIE-D65")), second = pair_of(oak, pale, stated("CIE-A"));
    const LightChange far = compare_lights(first, second);
    CHECK(far.verdict == LightVerdict::holds);
    CHECK(far.parting < 0.1);
    CHECK(compare_lights(first, second, {far.parting_u95 - 0.01, 9}).verdict == LightVerdict::undecided);
}

TEST_CASE("What the limits are held against counts what is seen, or what the change of light adds") {
    // Our own rule: a match counts with what is seen under light two, the index where that is more, and what
    // stood apart beyond the tolerance before does not count.
    CHECK(parting_of(0.4, 2.6, 2.5, 1) == Approx(2.6));
    CHECK(parting_of(1.0, 2.1, 1.4, 1) == Approx(2.1));
    CHECK(parting_of(1.3, 2.8, 1.9, 1) == Approx(2.2));
    CHECK(parting_of(5.0, 6.5, 0.2, 1) == Approx(0.2));
    CHECK(parting_of(5.0, 2.0, 3.4, 1) == Approx(3.4));
    CHECK(parting_of(1.6, 2.6, 0.9, 2) == Approx(2.6));
}

TEST_CASE("From lights that are alike a match can't be said to hold, but a parting pair is alarmed of") {
    const Lab near{52.2, 14.1, 27.2};
    const LightChange holds =
        compare_lights(pair_of(oak, near, stated("CIE-D55")), pair_of(oak, near, stated("CIE-D65")));
    CHECK(holds.verdict == LightVerdict::undecided);
    CHECK(find_warning(holds.warnings, "lights-alike") != nullptr);
    const LightChange parts =
        compare_lights(pair_of(oak, oak, stated("CIE-D55")), pair_of(oak, {48, 18, 27}, stated("CIE-D65")));
    CHECK(parts.verdict == LightVerdict::alarm);
}

TEST_CASE("Lights of which nothing is known have no unlikeness, and that is said") {
    const LightChange change =
        compare_lights(pair_of(oak, oak, {"light 1", {}, {}}), pair_of(oak, oak, stated("CIE-A")));
    CHECK_FALSE(change.unlikeness);
    const Warning* warning = find_warning(change.warnings, "lights-unknown");
    REQUIRE(warning != nullptr);
    CHECK(warning->text.starts_with("light 1"));
}

TEST_CASE("Daylight and a bulb are unlike enough, by name or by temperature; neighbours are not") {
    CHECK(unlikeness_of(stated("CIE-D65"), stated("CIE-A")).value_or(0) > least_unlikeness);
    CHECK(unlikeness_of({"", {}, 6500}, {"", {}, 2800}).value_or(0) > least_unlikeness);
    CHECK(unlikeness_of(stated("CIE-D50"), stated("CIE-D65")).value_or(9) < least_unlikeness);
    CHECK(unlikeness_of(stated("led:6500"), stated("led:2700")).value_or(0) > least_unlikeness);
    CHECK(unlikeness_of(stated("CIE-D65"), stated("CIE-D65")).value_or(9) < 1e-9);
}

TEST_CASE("A raw picture's white that contradicts the stated light is warned of") {
    KnownLight swapped = stated("CIE-D65");
    swapped.seen_kelvin = 2900;
    const LightChange change = compare_lights(pair_of(oak, oak, swapped), pair_of(oak, oak, stated("CIE-A")));
    REQUIRE(find_warning(change.warnings, "light-not-as-stated") != nullptr);
    swapped.seen_kelvin = 6300;
    const LightChange fine = compare_lights(pair_of(oak, oak, swapped), pair_of(oak, oak, stated("CIE-A")));
    CHECK(find_warning(fine.warnings, "light-not-as-stated") == nullptr);
}

TEST_CASE("An unfit reading decides nothing") {
    PairUnderOne second = pair_of(oak, {48, 18, 27}, stated("CIE-A"));
    second.comparison.warnings.push_back({"glare", "mirrors", true});
    CHECK(compare_lights(pair_of(oak, oak, stated("CIE-D65")), second).verdict == LightVerdict::undecided);
}

TEST_CASE("Of three lights the gravest change counts") {
    const PairUnderLights pair =
        hold_against_first({pair_of(oak, oak, stated("CIE-D65")), pair_of(oak, oak, stated("CIE-A")),
                            pair_of(oak, {48, 18, 27}, stated("CIE-F11"))});
    REQUIRE(pair.changes.size() == 2);
    CHECK(pair.changes[0].verdict == LightVerdict::holds);
    CHECK(pair.changes[1].verdict == LightVerdict::alarm);
    CHECK(pair.verdict() == LightVerdict::alarm);
    CHECK_FALSE(pair.unfit());
}

TEST_CASE(
    "Errors of the card are common to both pictures, so that the shift is known better than by adding both") {
    const PairUnderOne first = pair_of(oak, {48, 18, 27}, stated("CIE-D65")),
                       second = pair_of(oak, {47, 19, 27}, stated("CIE-A"));
    const LightChange change = compare_lights(first, second);
    const auto &u1 = first.comparison.difference.lab_u95, &u2 = second.comparison.difference.lab_u95;
    for (std::size_t k = 0; k < 3; ++k) {
        CHECK(change.shift_u95[k] > 0);
        CHECK(change.shift_u95[k] < 1.05 * std::hypot(u1[k], u2[k]));
    }
}
