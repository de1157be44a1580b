// What was known of the light goes with a reading: what its user stated, and the light of its picture. The
// contract is this program's own; measured again, a reading is its own peer.
#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <tuple>

#include "picture/input_error.h"
#include "record/earlier_light.h"
#include "tests/catch.h"
#include "tests/record/kept_area.h"
#include "tests/record/practice_reading.h"

using namespace tonemend;
using namespace tonemend::testing;
using Json = nlohmann::json;

namespace {

CalibrationInputs all_stated(const PracticeReading& bench) {
    CalibrationInputs inputs;
    inputs.black_level = 90;
    inputs.light = parse_light("led:3000");
    inputs.colourants = RepairColourants::other;
    // As an instrument might have read it: half a unit off, which is no typing error.
    const PixelRect& at = bench.scene.original.region;
    const Lab lab = bench.compare(bench.frame, find_card(bench.frame).value()).original.lab;
    inputs.samples = {parse_sample(fmt::format("original:{},{},{},{}={},{},{}", at.x, at.y, at.width,
                                               at.height, lab.L + 0.5, lab.a, lab.b))};
    return inputs;
}

// A reading with all that can be stated.
ReadingToKeep stated_reading(const PracticeReading& bench) {
    ReadingToKeep reading = bench.to_keep(bench.frame);
    const Card card = read_card(locate_card("six-step-card"));
    reading.calibration = calibrate_on_card(bench.frame, card, *reading.source->card, all_stated(bench));
    reading.comparison = compare_regions(bench.frame, reading.calibration, bench.original, bench.repair);
    reading.source->stated = reading.calibration.stated;
    reading.light = light_of(bench.frame, reading.calibration);
    return reading;
}

Comparison measure_again(const ReadingPicture& source, const StatedFacts& stated) {
    CalibrationInputs inputs;
    static_cast<StatedFacts&>(inputs) = stated;
    return compare_regions(
        *source.frame,
        calibrate_on_card(*source.frame, read_card(locate_card(source.card_name)), *source.card, inputs),
        source.original, source.repair);
}

}  // namespace

TEST_CASE("A reading made with stated light, colourants, samples and black level is made again with them") {
    KeptArea area;
    AreaReadings& job = area.readings;
    const PracticeReading bench(16);
    const ReadingToKeep reading = stated_reading(bench);
    (void)job.keep(reading);
    const ReadingPicture source = job.reopen(1).source;
    const Comparison again = measure_again(source, source.stated);
    // ReadingStore promises Lab to 0.002.
    CHECK(again.original.lab.L == Approx(reading.comparison.original.lab.L).margin(0.002));
    CHECK(again.repair.lab.b == Approx(reading.comparison.repair.lab.b).margin(0.002));
    CHECK(again.difference.de2000_u95 == Approx(reading.comparison.difference.de2000_u95).margin(0.002));
    // Each of the four matters here, or nothing would show that it came back.
    const auto without = [&](auto forget) {
        StatedFacts less = source.stated;
        forget(less);
        const Comparison other = measure_again(source, less);
        return std::abs(other.original.lab.L - again.original.lab.L) +
               std::abs(other.original.lab.b - again.original.lab.b) +
               std::abs(other.difference.de2000_u95 - again.difference.de2000_u95);
    };
    CHECK(without([](StatedFacts& facts) { facts.black_level.reset(); }) > 0.01);
    CHECK(without([](StatedFacts& facts) { facts.light.reset(); }) > 0.01);
    CHECK(without([](StatedFacts& facts) { facts.colourants = RepairColourants::same; }) > 0.01);
    CHECK(without([](StatedFacts& facts) { facts.samples.clear(); }) > 0.01);
}

TEST_CASE("A reading kept without its picture says all the same what was stated") {
    KeptArea area;
    AreaReadings& job = area.readings;
    const PracticeReading bench(16);
    ReadingToKeep reading = stated_reading(bench);
    reading.source.reset();
    (void)job.keep(reading);
    const Json json = area.json(1);
    CHECK(json["stated"]["light"] == "led:3000");
    CHECK(json["stated"]["colourants"] == "other");
    CHECK(json["stated"]["black_level"] == 90);
    CHECK(json["stated"]["samples"].size() == 1);
    CHECK_FALSE(json.contains("frame"));
}

TEST_CASE("A reading kept by an older program comes back with nothing stated and no light of its picture") {
    KeptArea area;
    AreaReadings& job = area.readings;
    const PracticeReading bench(16);
    (void)job.keep(stated_reading(bench));
    CHECK(job.list().at(0).light);
    area.change(1, [](Json& json) {
        json.erase("picture_light");
        json["frame"].erase("stated");
    });
    const ReopenedReading back = job.reopen(1);
    CHECK_FALSE(back.source.stated.light);
    CHECK(back.source.stated.colourants == RepairColourants::earth);
    CHECK(back.source.stated.samples.empty());
    REQUIRE(job.list().size() == 1);
    CHECK_FALSE(job.list()[0].light);
    CHECK(warn_of_other_light(1, job.list()[0].light, PictureLight{{1, 1, 1}, 1}).empty());
}

TEST_CASE("The light of a reading's picture is listed exactly as it was kept") {
    KeptArea area;
    AreaReadings& job = area.readings;
    const PracticeReading bench;
    ReadingToKeep reading = bench.to_keep(bench.frame);
    reading.light = PictureLight{{0.9123456789, 1, 0.7}, 0.8123456789, true, 0.123456789, true};
    const KeptReading kept = job.keep(reading);
    const auto listed = job.list();
    REQUIRE(listed.size() == 1);
    for (const auto& light : {kept.light, listed[0].light}) {
        REQUIRE(light);
        CHECK(light->white.X == reading.light->white.X);
        CHECK(light->white.Z == reading.light->white.Z);
        CHECK(light->exposure == reading.light->exposure);
        CHECK(light->set_exposure == reading.light->set_exposure);
        CHECK(light->raw);
        CHECK(light->balance_automatic);
    }
}

TEST_CASE("A reading in another light names the earlier one, and the same light says nothing") {
    PictureLight then{{0.96, 1, 0.82}, 0.8};
    PictureLight now = then;
    CHECK(warn_of_other_light(3, then, now).empty());
    now.white.Z *= 1.1, now.exposure *= 1.3;
    const auto warnings = warn_of_other_light(3, then, now);
    REQUIRE(warnings.size() == 2);
    CHECK(warnings[0].code == "light-changed");
    CHECK(warnings[1].code == "exposure-differs");
    for (const Warning& warning : warnings) {
        CHECK_THAT(warning.text, contains("not as in reading 3: the "));
        CHECK_FALSE(warning.unfit);
    }
    CHECK(warn_of_other_light(3, std::nullopt, now).empty());
}

TEST_CASE("Damaged facts of the light cost that reading and no other") {
    KeptArea area;
    AreaReadings& job = area.readings;
    const PracticeReading bench(16);
    const ReadingToKeep reading = stated_reading(bench);
    (void)job.keep(reading), (void)job.keep(reading);
    const std::string sound = area.text(1);
    const auto reopen = [&] {
        try {
            (void)job.reopen(1);
        } catch (const InputError& error) {
            return std::string(error.what());
        }
        return std::string();
    };
    for (const auto& [pointer, value, word] :
         {std::tuple{"/frame/stated/light", Json("moon"), "frame.stated.light"},
          {"/frame/stated", Json(7), "frame.stated"},
          {"/frame/stated/samples/0", Json("9000,10,20,20=1,2,3"), "sample"}}) {
        INFO(pointer);
        area.change(1, [&, at = pointer, to = value](Json& json) { json[Json::json_pointer(at)] = to; });
        const std::string line = reopen();
        INFO(line);
        CHECK_THAT(line, contains(word) && contains("reading 1"));
        CHECK(job.list().size() == 2);
        area.put_text(1, sound);
    }
    area.change(1, [](Json& json) { json["picture_light"]["exposure"] = "bright"; });
    REQUIRE(job.list().size() == 2);
    CHECK_FALSE(job.list()[0].light);
    CHECK(job.list()[1].light);
}
