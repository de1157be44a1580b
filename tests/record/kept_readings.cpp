// What a store of readings promises, asked of the job folder. The contract is this program's own.
#include <cmath>
#include <nlohmann/json.hpp>

#include "picture/input_error.h"
#include "record/job_folder.h"
#include "tests/catch.h"
#include "tests/record/practice_reading.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

namespace fs = std::filesystem;

void put_reading(const ScratchFolder& folder, const char* name, double de) {
    put_content(folder / name,
                R"({"schema":"tonemend.comparison/1","taken":"2026-11-25T12:00:00Z","tolerance":1.0,)"
                R"("original":{"lab":[50,10,20]},"repair":{"lab":[52,10,20]},)"
                R"("difference":{"de2000":)" +
                    std::to_string(de) + R"(,"de2000_u95":0.2}})");
}

template <typename Action>
std::string refusal(Action action) {
    try {
        action();
    } catch (const InputError& error) {
        return error.what();
    }
    return {};
}

}  // namespace

TEST_CASE(
    "A job's readings are listed in order, and damaged files, other files and undone ones are passed over") {
    const ScratchFolder folder;
    CHECK(JobFolder(folder / "absent").list().empty());
    CHECK_FALSE(fs::exists(folder / "absent"));
    put_reading(folder, "0002-live.json", 0.5);
    put_reading(folder, "0001-live.json", 4);
    put_reading(folder, "notes.json", 9);
    put_reading(folder, "0004-live.json.undone", 9);
    put_content(folder / "0003-live.json", "{");
    put_content(folder / "0005-live.json", R"({"schema":"tonemend.comparison/2"})");
    JobFolder job(folder.path());
    const auto readings = job.list();
    REQUIRE(readings.size() == 2);
    CHECK(readings[0].number == 1);
    CHECK(readings[0].de2000 == 4);
    CHECK(readings[0].verdict == Verdict::off);
    CHECK(readings[1].verdict == Verdict::match);
    CHECK_FALSE(readings[1].has_source);
    CHECK(readings[1].place == (folder / "0002-live.json").string());
}

TEST_CASE("An undone reading leaves the list and nothing else, and its number is not used again") {
    const ScratchFolder folder;
    JobFolder job(folder.path());
    const PracticeReading bench;
    const ReadingToKeep reading = bench.to_keep(bench.frame);
    (void)job.keep(reading);
    const std::string content = content_of(job.keep(reading).place);
    job.undo(2);
    CHECK(job.list().size() == 1);
    CHECK(content_of(folder / "0002-bench.json.undone") == content);
    CHECK(fs::exists(folder / "0002-bench.png"));
    CHECK(fs::exists(folder / "0002-bench.frame.png"));
    const std::string again = refusal([&] { job.undo(2); });
    CHECK_THAT(again, contains("holds no reading 2"));
    CHECK(job.keep(reading).number == 3);
    // Only its JSON was left.
    fs::remove(folder / "0003-bench.png"), fs::remove(folder / "0003-bench.frame.png");
    job.undo(3);
    CHECK(job.keep(reading).number == 4);
}

TEST_CASE("What keep returns is what the list shows, rounded as the file is") {
    const ScratchFolder folder;
    JobFolder job(folder.path());
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
    const ScratchFolder folder;
    JobFolder job(folder.path());
    const PracticeReading bench;
    ReadingToKeep reading = bench.to_keep(bench.frame);
    const std::string sound = content_of(job.keep(reading).place);
    reading.source.reset();
    (void)job.keep(reading);
    const auto require_refusal = [&](int number, const char* word) {
        const std::string line = refusal([&] { (void)job.reopen(number); });
        INFO(line);
        CHECK_THAT(line, contains(word));
        CHECK(line.find('\n') == std::string::npos);
        CHECK(line.starts_with(folder.path().string()));
    };
    require_refusal(2, "without its picture");
    require_refusal(7, "holds no reading 7");

    const auto damage = [&](const char* pointer, const nlohmann::json& value) {
        auto json = nlohmann::json::parse(sound);
        json[nlohmann::json::json_pointer(pointer)] = value;
        put_content(folder / "0001-bench.json", json.dump());
    };
    struct Row {
        const char* pointer;
        nlohmann::json value;
        const char* word;
    };
    const Row rows[] = {{"/frame/schema", "tonemend.frame/2", "another version"},
                        {"/frame/file", "../0001-bench.frame.png", "damaged"},
                        {"/frame/file", "", "damaged"},
                        {"/frame/file", 7, "damaged"},
                        {"/frame/file", "elsewhere.png", "elsewhere.png"},
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
        damage(row.pointer, row.value);
        require_refusal(1, row.word);
    }
    put_content(folder / "0001-bench.json", sound);
    CHECK_NOTHROW(job.reopen(1));
    const std::string picture = content_of(folder / "0001-bench.frame.png");
    put_content(folder / "0001-bench.frame.png", picture.substr(0, picture.size() / 2));
    require_refusal(1, "0001-bench.frame.png");
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
    JobFolder job(folder.path());
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
