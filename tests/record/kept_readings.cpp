// What a store of readings promises, asked of an area of the store. The contract is this program's own.
#include <cmath>
#include <nlohmann/json.hpp>

#include "picture/input_error.h"
#include "tests/catch.h"
#include "tests/record/kept_area.h"
#include "tests/record/practice_reading.h"
#include "tests/support/refusal_of.h"

using namespace tonemend;
using namespace tonemend::testing;

TEST_CASE("Before the first reading nothing is made; the first is taken as before, the next as during") {
    KeptArea area;
    AreaReadings& job = area.readings;
    CHECK(job.list().empty());
    CHECK(job.store() == nullptr);
    CHECK_FALSE(std::filesystem::exists(area.choice.store.file));
    const PracticeReading bench;
    (void)job.keep(bench.to_keep(bench.frame));
    (void)job.keep(bench.to_keep(bench.frame));
    CHECK(area.record(1).role == ReadingRole::before);
    CHECK(area.record(2).role == ReadingRole::during);
    CHECK(job.list().at(1).number == 2);
    CHECK_THAT(job.list().at(1).place, contains("'Bench'"));
}

TEST_CASE("An undone reading leaves the list and nothing else, and its number is not used again") {
    KeptArea area;
    const PracticeReading bench;
    const ReadingToKeep reading = bench.to_keep(bench.frame);
    (void)area.readings.keep(reading);
    (void)area.readings.keep(reading);
    const auto file = area.source_file(2);
    const std::string text = area.text(2), uid = area.record(2).uid;
    area.readings.undo(2);
    CHECK(area.readings.list().size() == 1);
    CHECK(area.store()->reading_text(uid) == text);
    CHECK(std::filesystem::exists(file));
    CHECK_THAT(refusal_of([&] { area.readings.undo(2); }), contains("holds no reading 2"));
    CHECK(area.readings.keep(reading).number == 3);
    area.readings.undo(3);
    CHECK(area.readings.keep(reading).number == 4);
}

TEST_CASE("What keep returns is what the list shows") {
    KeptArea area;
    AreaReadings& job = area.readings;
    const PracticeReading bench;
    const KeptReading kept = job.keep(bench.to_keep(bench.frame));
    const auto listed = job.list();
    REQUIRE(listed.size() == 1);
    CHECK(listed[0].number == kept.number);
    CHECK(listed[0].taken == kept.taken);
    CHECK(listed[0].picture == kept.picture);
    CHECK(listed[0].place == kept.place);
    CHECK(listed[0].has_source == kept.has_source);
    CHECK(listed[0].verdict == kept.verdict);
    CHECK(listed[0].tolerance == kept.tolerance);
    CHECK(listed[0].de2000 == Approx(kept.de2000).margin(5e-5));
    CHECK(listed[0].u95 == Approx(kept.u95).margin(5e-5));
    CHECK(listed[0].repair.b == Approx(kept.repair.b).margin(5e-5));
}

TEST_CASE("A reading kept without its picture, or with a damaged one, is refused in one line") {
    KeptArea area;
    AreaReadings& job = area.readings;
    const PracticeReading bench;
    ReadingToKeep reading = bench.to_keep(bench.frame);
    (void)job.keep(reading);
    reading.source.reset();
    (void)job.keep(reading);
    const std::string sound = area.text(1);
    const auto require_refusal = [&](int number, const std::string& word) {
        const std::string line = refusal_of([&] { (void)job.reopen(number); });
        INFO(line);
        CHECK_THAT(line, contains(word));
        CHECK(line.find('\n') == std::string::npos);
    };
    require_refusal(2, "reading 2: was kept without its picture");
    require_refusal(7, "holds no reading 7");
    struct Row {
        const char* pointer;
        nlohmann::json value;
        const char* word;
    };
    const Row rows[] = {{"/frame/schema", "tonemend.frame/2", "another version"},
                        {"/frame/original", nullptr, "original"},
                        {"/frame/original", {{0, 0}, {9, 9}, {9, 0}, {0, 9}}, "original"},
                        {"/frame/repair", {{0, 0}, {90000, 0}, {9, 900}}, "repair"},
                        {"/frame/card_frame/size", "huge", "damaged"},
                        {"/frame/card_frame/window/2", {1, 2}, "damaged"},
                        {"/frame/card_frame/sheet_to_picture", {0, 0, 0, 0, 0, 0, 0, 0, 0}, "damaged"},
                        {"/frame/card_frame/sheet_to_picture/3", nullptr, "damaged"},
                        {"/frame/encoding", nullptr, "damaged"},
                        {"/frame", nullptr, "damaged"}};
    for (const Row& row : rows) {
        INFO(row.pointer);
        area.change(
            1, [&](nlohmann::json& json) { json[nlohmann::json::json_pointer(row.pointer)] = row.value; });
        require_refusal(1, row.word);
        area.put_text(1, sound);
    }
    area.put_text(1, "{ no JSON");
    require_refusal(1, "damaged");
    CHECK(job.list().size() == 2);  // its numbers are there all the same
    CHECK_FALSE(job.list()[0].has_source);
    area.put_text(1, sound);
    CHECK_NOTHROW(job.reopen(1));
    const auto file = area.source_file(1);
    const std::string picture = content_of(file);
    put_content(file, picture.substr(0, picture.size() / 2));
    require_refusal(1, file.filename().string() + ": is damaged");
    std::filesystem::remove(file);
    require_refusal(1, file.filename().string() + ": is missing");
    // Kept once more, it is whole again.
    reading = bench.to_keep(bench.frame);
    (void)job.keep(reading);
    CHECK_NOTHROW(job.reopen(1));
}

TEST_CASE("A reading in evened-out light comes back with its flat field, and measures the same again") {
    const ScratchFolder folder;
    const PracticeReading bench(16);
    PracticeOptions options = bench.scene.options;
    options.subject = PracticeSubject::grey_sheet;
    const Card card = read_card(locate_card("six-step-card"));
    CalibrationInputs inputs;
    inputs.flat_samples =
        std::make_shared<const FlatSamples>(sample_flat_pictures({render(make_scene(options))}, card));
    ReadingToKeep reading = bench.to_keep(bench.frame);
    const FoundCard found = *reading.source->card;
    reading.calibration = calibrate_on_card(bench.frame, card, found, inputs);
    reading.comparison = compare_regions(bench.frame, reading.calibration, bench.original, bench.repair);
    reading.source->flat_field = std::make_shared<const FlatField>(*reading.calibration.flat_field);
    KeptArea area;
    AreaReadings& job = area.readings;
    const KeptReading kept = job.keep(reading);
    const ReopenedReading back = job.reopen(kept.number);
    REQUIRE(back.source.flat_field != nullptr);
    CalibrationInputs again;
    again.flat_field = back.source.flat_field;
    const Calibration calibration = calibrate_on_card(*back.source.frame, card, *back.source.card, again);
    const Comparison measured =
        compare_regions(*back.source.frame, calibration, back.source.original, back.source.repair);
    CHECK(std::abs(measured.original.lab.L - reading.comparison.original.lab.L) < 0.002);
    CHECK(std::abs(measured.repair.lab.b - reading.comparison.repair.lab.b) < 0.002);
    CHECK(measured.difference.de2000_u95 == Approx(reading.comparison.difference.de2000_u95).margin(0.002));
}
