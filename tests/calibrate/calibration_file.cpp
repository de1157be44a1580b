// The file of a calibration: calibration/README.md is its contract.
#include "calibrate/keep/calibration_file.h"

#include <cmath>
#include <nlohmann/json.hpp>
#include <thread>

#include "calibrate/keep/calibration_json.h"
#include "kept_sample.h"
#include "picture/input_error.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;
using Json = nlohmann::ordered_json;

namespace {

KeptCalibration parse(const std::string& text) {
    return parse_calibration(std::as_bytes(std::span(text)), "shop.json");
}

std::string refusal(const std::string& text) {
    try {
        (void)parse(text);
    } catch (const InputError& error) {
        return error.what();
    }
    return "no refusal";
}

KeptCalibration sample_calibration() {
    KeptCalibration kept = CalibratedScene().keep();
    kept.picture.facts.camera = "Bench camera";
    kept.picture.facts.iso = 100;
    kept.fit.characterisation.patches = {{"brown", 0.25, 0.5}, {"red", 0.75, std::nullopt}};
    kept.chart.known = Lab{50, 10, 20};
    kept.chart.points = {{"2026-11-26T08:00:00Z", "check.png", {50.25, 9.5, 20.125}}};
    return kept;
}

double farthest(const ColourModel& a, const ColourModel& b) {
    double most = 0;
    for (std::size_t row = 0; row < 3; ++row)
        for (std::size_t column = 0; column < 3; ++column) {
            most = std::max(most, std::abs(a.matrix().m[row][column] - b.matrix().m[row][column]));
            most = std::max(
                most, std::abs(a.from_working.roots.m[row][column] - b.from_working.roots.m[row][column]));
        }
    return most;
}

}  // namespace

TEST_CASE("A calibration comes back from its file with every number as it was") {
    const KeptCalibration kept = sample_calibration();
    const std::string text = calibration_text(kept);
    const KeptCalibration read = parse(text);
    // Written again, it is the same text but for the profile, whose curves are formulas rounded to 1/65536.
    Json first = Json::parse(text), second = Json::parse(calibration_text(read));
    first["encoding"].erase("profile"), second["encoding"].erase("profile");
    CHECK(first == second);
    CHECK(read.picture.facts.iso == 100.0);
    CHECK(read.fit.patches.size() == kept.fit.patches.size());
    CHECK(read.fit.characterisation.doubt.size() == kept.fit.characterisation.doubt.size());
    CHECK(read.fit.characterisation.patches[0].leave_one_out_de2000 == 0.5);
    CHECK_FALSE(read.fit.characterisation.patches[1].leave_one_out_de2000.has_value());
    for (std::size_t c = 0; c < 3; ++c)
        for (const double seen : {0.01, 0.1, 0.5, 0.9})
            CHECK(read.fit.curves[c](seen) == kept.fit.curves[c](seen));
}

TEST_CASE("A root polynomial comes back from its file as it was") {
    KeptCalibration kept = sample_calibration();
    kept.fit.characterisation.model = bent(kept.fit.characterisation.model);
    CHECK(farthest(parse(calibration_text(kept)).fit.characterisation.model,
                   kept.fit.characterisation.model) == 0);
}

TEST_CASE("The fit repeated from its file is the same fit") {
    for (const bool black_given : {false, true}) {
        CalibrationInputs inputs;
        if (black_given) inputs.black_level = 40;
        const CalibratedScene scene(sample_options(5), inputs);
        const KeptCalibration read = parse(calibration_text(scene.keep()));
        const Calibration again = fit_again(read);
        CHECK(farthest(again.characterisation.model, scene.calibration.characterisation.model) < 1e-12);
        CHECK(again.characterisation.contrast == scene.calibration.characterisation.contrast);
        CHECK(again.warnings.size() == scene.calibration.warnings.size());
        // A given black level goes through the profile in the file, whose formula is rounded to 1/65536.
        for (std::size_t c = 0; c < 3; ++c)
            CHECK(again.curves[c](0.1) ==
                  Approx(scene.calibration.curves[c](0.1)).margin(black_given ? 2e-6 : 1e-15));
    }
}

TEST_CASE("A stated light comes back from its file as it was stated, in every way of stating it") {
    for (const char* stated :
         {"2700", "2733.25", "2700K", "CIE-A", "planckian:2856", "daylight:5500", "led:3000"}) {
        INFO(stated);
        KeptCalibration kept = sample_calibration();
        kept.inputs.light = parse_light(stated);
        const auto back = parse(calibration_text(kept)).inputs.light;
        REQUIRE(back);
        CHECK(back->kelvin == kept.inputs.light->kelvin);
        CHECK(back->family == kept.inputs.light->family);
        CHECK(back->power.values == kept.inputs.light->power.values);
    }
}

TEST_CASE("A file of version 1 is read by every later program") {
    // The file was written by hand: one grey step, seen at 0.09, is 0.18 of white, so the gain is 2.
    const KeptCalibration kept =
        read_calibration(std::filesystem::path(TONEMEND_TEST_DATA) / "calibration-1.json");
    CHECK(kept.program == "tonemend 0.1.0");
    CHECK(kept.made == "2026-11-25T10:09:00Z");
    CHECK(kept.picture.facts.camera == "Bench camera");
    REQUIRE(kept.fit.patches.size() == 1);
    CHECK(kept.fit.patches[0].patch.lab.L == 49.5);
    CHECK(kept.fit.curves[1](0.25) == Approx(0.5));
    CHECK(kept.fit.characterisation.contrast == 0.035);
    REQUIRE(kept.chart.points.size() == 1);
    CHECK(judge_chart(kept.chart).state == ChartState::good);
}

TEST_CASE("A file that is no sound calibration is refused with one line that says what is wrong with it") {
    const Json sound = Json::parse(calibration_text(sample_calibration()));
    const auto changed = [&](const char* pointer, const Json& value) {
        Json json = sound;
        json[Json::json_pointer(pointer)] = value;
        return refusal(json.dump());
    };
    CHECK_THAT(refusal(""), contains("no whole JSON"));
    CHECK_THAT(refusal("{\"schema\": 1e999}"), contains("no whole JSON"));
    CHECK_THAT(refusal(sound.dump().substr(0, 3000)), contains("no whole JSON"));
    CHECK_THAT(refusal("[]"), contains("is no object"));
    CHECK_THAT(changed("/schema", "tonemend.comparison/1"), contains("not that of a calibration"));
    CHECK_THAT(changed("/schema", "tonemend.calibration/2"), contains("reads up to tonemend.calibration/1"));
    CHECK_THAT(changed("/made", 7), contains("made is no text"));
    CHECK_THAT(changed("/picture/samples", "uint12"), contains("picture.samples is no type of samples"));
    CHECK_THAT(changed("/readings/2/mean", {0.1, 0.2}), contains("readings[2].mean is not 3 numbers"));
    CHECK_THAT(changed("/readings/2/mean/1", nullptr), contains("readings[2].mean[1] is no number"));
    CHECK_THAT(changed("/readings/0/patch/lab/0", 101), contains("readings[0].patch.lab"));
    CHECK_THAT(changed("/readings/0/pixels", -1), contains("readings[0].pixels is -1"));
    CHECK_THAT(changed("/curves/0/points/0/0", 0.99), contains("curves[0] does not rise"));
    CHECK_THAT(changed("/curves", Json::array()), contains("three curves"));
    CHECK_THAT(changed("/encoding/profile", "AAAA"), contains("encoding.profile is no ICC profile"));
    CHECK_THAT(changed("/encoding/profile", std::string(400, 'A')), contains("encoding.profile is damaged"));
    CHECK_THAT(changed("/encoding/to_xyz_d50", {1, 1, 1, 1, 1, 1, 1, 1, 1}), contains("columns in line"));
    CHECK_THAT(changed("/characterisation/model/linear/0", 5), contains("does not see white as white"));
    CHECK_THAT(changed("/characterisation/contrast", 3), contains("characterisation.contrast is 3"));
    CHECK_THAT(changed("/chart/known_lab", nullptr), contains("chart.known_lab"));
    CHECK_THAT(changed("/chart/expire_de2000", 0.5), contains("chart.expire_de2000"));
    for (const auto& [key, value] : sound.items()) {
        if (key == "flat_field") continue;  // absent: the light was taken as it fell
        Json json = sound;
        json.erase(key);
        INFO(key);
        const std::string said = refusal(json.dump());
        CHECK_THAT(said, contains(key + " is missing") && contains("calibrate anew"));
        CHECK(said.starts_with("shop.json: "));
        CHECK(said.find('\n') == said.npos);
    }
}

TEST_CASE("Changes made at the same time all find their way into the file") {
    const ScratchFolder folder;
    const std::filesystem::path path = folder / "shop.json";
    KeptCalibration kept = sample_calibration();
    kept.chart.points.clear();
    put_content(path, calibration_text(kept));
    std::vector<std::thread> threads;
    for (int t = 0; t < 4; ++t)
        threads.emplace_back([&path, t] {
            for (int i = 0; i < 5; ++i)
                change_calibration(path, [&](KeptCalibration& now) {
                    now.chart.points.push_back(
                        {"2026-11-26T08:00:00Z", std::to_string(10 * t + i), {50, 10, 20}});
                });
        });
    for (std::thread& thread : threads) thread.join();
    CHECK(read_calibration(path).chart.points.size() == 20);
}

TEST_CASE("A change that fails leaves the file as it was") {
    const ScratchFolder folder;
    const std::filesystem::path path = folder / "shop.json";
    put_content(path, calibration_text(sample_calibration()));
    const std::string before = content_of(path);
    CHECK_THROWS_AS(change_calibration(path,
                                       [](KeptCalibration& now) {
                                           now.chart.points.clear();
                                           throw InputError("no");
                                       }),
                    InputError);
    CHECK(content_of(path) == before);
}
