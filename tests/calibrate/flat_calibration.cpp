// A flat field in a calibration, on the practice bench, whose fall of light is known.
#include <cmath>
#include <memory>
#include <nlohmann/json.hpp>

#include "calibrate/calibrated_light.h"
#include "calibrate/keep/flat_field_json.h"
#include "picture/input_error.h"
#include "practice/render.h"
#include "tests/catch.h"
#include "tests/support/bench_scene.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

PracticeOptions bench(double percent, double direction) {
    PracticeOptions options = accuracy_study(4);
    options.width = 900, options.height = 675;
    options.fall_off_percent = percent, options.fall_off_direction = direction;
    return options;
}

std::shared_ptr<const FlatSamples> sheet_of(PracticeOptions options) {
    options.subject = PracticeSubject::grey_sheet;
    return std::make_shared<const FlatSamples>(sample_flat_pictures({render(make_scene(options))}, Card{}));
}

Calibration calibrate(const Frame& frame, const CalibrationInputs& inputs) {
    return calibrate_on_card(frame, read_card(locate_card("six-step-card")), find_card(frame).value(),
                             inputs);
}

}  // namespace

TEST_CASE(
    "The paper shows no slope after evening out, and the regions' light agrees with the lamp's to 0.1 %") {
    const PracticeScene scene = make_scene(bench(15, 30));
    const Frame frame = render(scene);
    CalibrationInputs inputs;
    inputs.flat_samples = sheet_of(scene.options);
    const Calibration plain = calibrate(frame, {}), evened = calibrate(frame, inputs);
    CHECK(std::hypot(plain.light.x, plain.light.y) * 900 > 0.1);
    CHECK(std::hypot(evened.light.x, evened.light.y) * 900 < 0.01);
    CHECK(find_warning(evened.warnings, "lamp-moved") == nullptr);
    CHECK(find_warning(evened.warnings, "flat-differs") == nullptr);
    const Point here{200, 500}, there{700, 520};
    const double truth = scene.light.at(there.x, there.y) / scene.light.at(here.x, here.y);
    const Vector3 a = evened.flat_field->light_at(here), b = evened.flat_field->light_at(there);
    for (std::size_t c = 0; c < 3; ++c) CHECK(b[c] / a[c] == Approx(truth).epsilon(0.001));
    CHECK(evened.flat_field->u_between(here, there) < 0.002);
}

TEST_CASE("Steps in uneven light give the curve that they give in even light") {
    BenchScene scene;
    const Calibration even =
        calibrate_on_card(scene.frame(), neutral_card(scene.steps), BenchScene::card_corners);
    scene.light = [](int x, int y) { return 1.1 - 0.2 * (x + 0.5) / 360 - 0.05 * (y + 0.5) / 240; };
    const Frame frame = scene.frame();
    BenchScene grey = scene;
    grey.steps = std::vector<double>(6, 0.4);
    grey.wood = [](int, int) { return Lab{69.47, 0, 0}; };  // reflects 0.4
    CalibrationInputs inputs;
    inputs.flat_samples = std::make_shared<const FlatSamples>(sample_sheet(grey.frame()));
    const Calibration plain = calibrate_on_card(frame, neutral_card(scene.steps), BenchScene::card_corners);
    const Calibration evened =
        calibrate_on_card(frame, neutral_card(scene.steps), BenchScene::card_corners, inputs);
    // Light counts as 1 at the card's middle, where the even scene's is 1 too but for this factor.
    const double at_middle = 1.1 - 0.2 * 0.5 - 0.05 * 30 / 240;
    double worst_plain = 0;
    for (const double seen : {0.05, 0.1, 0.2, 0.4, 0.7}) {
        const double truth = even.curves[1](seen) / at_middle;
        CHECK(evened.curves[1](seen) == Approx(truth).epsilon(0.002));
        worst_plain = std::max(worst_plain, std::abs(plain.curves[1](seen) / truth - 1));
    }
    CHECK(worst_plain > 0.02);
    for (const PatchReading& patch : evened.patches)
        CHECK(evened.light_of(patch)[1] == Approx(to_xyz(patch.patch.lab, d50_icc).Y).epsilon(0.003));
}

TEST_CASE("A lamp that stands elsewhere than for the sheet is noticed, the more it moved the worse") {
    CalibrationInputs inputs;
    inputs.flat_samples = sheet_of(bench(6, 0));
    const auto warning = [&](double percent, double direction) -> std::optional<Warning> {
        const Calibration seen = calibrate(render(make_scene(bench(percent, direction))), inputs);
        const Warning* found = find_warning(seen.warnings, "lamp-moved");
        return found == nullptr ? std::nullopt : std::optional(*found);
    };
    CHECK_FALSE(warning(6, 0));
    REQUIRE(warning(3, 180));
    REQUIRE(warning(10, 180));
    CHECK(warning(10, 180)->unfit);
    CHECK_THAT(warning(10, 180)->text, contains("take the flat picture again"));
}

TEST_CASE(
    "A lamp that moved after the card was pictured at both regions is noticed, and one that stayed is not") {
    const auto with_card_at = [](double x) {
        PracticeOptions options = bench(6, 20);
        options.card_x = x, options.card_y = 0.7, options.rotation = 0;
        return render(make_scene(options));
    };
    CalibrationInputs inputs;
    inputs.flat_samples = std::make_shared<const FlatSamples>(sample_flat_pictures(
        {with_card_at(0.28), with_card_at(0.72)}, read_card(locate_card("six-step-card"))));
    const Calibration stayed = calibrate(render(make_scene(bench(6, 20))), inputs);
    CHECK(find_warning(stayed.warnings, "lamp-moved") == nullptr);
    CHECK(stayed.flat_field->places == 3);
    CHECK(stayed.flat_field->residual < 0.002);
    const Calibration moved = calibrate(render(make_scene(bench(15, 200))), inputs);
    CHECK(find_warning(moved.warnings, "lamp-moved") != nullptr);
}

TEST_CASE(
    "The card's brightness for its exposure tells a lamp that was moved, and another exposure alone does "
    "not") {
    Frame frame = render(make_scene(bench(8, 90)));
    frame.facts.exposure_seconds = 0.02, frame.facts.f_number = 5.6, frame.facts.iso = 100;
    CalibrationInputs inputs;
    inputs.flat_samples = sheet_of(bench(8, 90));
    CalibrationInputs kept;
    kept.flat_field = std::make_shared<const FlatField>(*calibrate(frame, inputs).flat_field);
    CHECK(find_warning(calibrate(frame, kept).warnings, "lamp-moved") == nullptr);
    // Half the shutter time at twice the ISO is the same exposure.
    Frame same = frame;
    same.facts.exposure_seconds = 0.01, same.facts.iso = 200;
    CHECK(find_warning(calibrate(same, kept).warnings, "lamp-moved") == nullptr);
    Frame longer = frame;
    longer.facts.exposure_seconds = 0.04;  // and no lighter for it: half the light
    const Calibration moved = calibrate(longer, kept);
    const Warning* warning = find_warning(moved.warnings, "lamp-moved");
    REQUIRE(warning != nullptr);
    CHECK_THAT(warning->text, contains("50 % darker for its exposure"));
}

TEST_CASE("A flat picture of another camera, aperture or size is noticed") {
    Frame frame = render(make_scene(bench(8, 90)));
    FlatSamples samples = *sheet_of(bench(8, 90));
    samples.facts.camera = "shop camera", samples.facts.f_number = 8;
    CalibrationInputs inputs;
    inputs.flat_samples = std::make_shared<const FlatSamples>(samples);
    const auto differs = [&] {
        return find_warning(calibrate(frame, inputs).warnings, "flat-differs") != nullptr;
    };
    CHECK_FALSE(differs());  // nothing is known of this one
    frame.facts.camera = "shop camera", frame.facts.f_number = 8;
    CHECK_FALSE(differs());
    frame.facts.f_number = 4;
    CHECK(differs());
    frame.facts.f_number = 8, frame.facts.camera = "other camera";
    CHECK(differs());
    PracticeOptions smaller = bench(8, 90);
    smaller.width = 800, smaller.height = 600;
    inputs.flat_samples = sheet_of(smaller);
    CHECK_THROWS_WITH(calibrate(frame, inputs), contains("is for pictures of 800 × 600 pixels"));
}

TEST_CASE("A flat field comes back from its JSON as it was, and evens out the same") {
    const Frame frame = render(make_scene(bench(8, 90)));
    CalibrationInputs inputs;
    inputs.flat_samples = sheet_of(bench(8, 90));
    const Calibration before = calibrate(frame, inputs);
    const auto text = flat_field_json(*before.flat_field).dump();
    CalibrationInputs kept;
    kept.flat_field = std::make_shared<const FlatField>(to_flat_field(nlohmann::ordered_json::parse(text)));
    const Calibration after = calibrate(frame, kept);
    CHECK(flat_field_json(*after.flat_field).dump() == text);
    const PixelRect window{100, 400, 60, 50};
    CHECK(calibrated_light(frame, before, window).rgb == calibrated_light(frame, after, window).rgb);
}

TEST_CASE("A damaged flat field is refused") {
    const Calibration whole = [] {
        CalibrationInputs inputs;
        inputs.flat_samples = sheet_of(bench(8, 90));
        return calibrate(render(make_scene(bench(8, 90))), inputs);
    }();
    const nlohmann::ordered_json good = flat_field_json(*whole.flat_field);
    const auto refused = [&](const std::function<void(nlohmann::ordered_json&)>& change) {
        nlohmann::ordered_json bad = good;
        change(bad);
        CHECK_THROWS_AS(to_flat_field(bad), InputError);
    };
    CHECK_NOTHROW(to_flat_field(good));
    refused([](auto& json) { json.erase("terms"); });
    refused([](auto& json) { json["terms"][1].push_back(0.1); });
    refused([](auto& json) { json["terms"][2][0] = "much"; });
    refused([](auto& json) { json["terms"][0][0] = 40.0; });
    refused([](auto& json) { json["degree"] = 9; });
    refused([](auto& json) { json["width"] = 0; });
    refused([](auto& json) { json["source"] = "moonlight"; });
    refused([](auto& json) { json["doubt"] = {1.0}; });
    refused([](auto& json) { json["misfit"] = nullptr; });
    refused([](auto& json) { json["card_light"] = -1; });
}
