// Folders of readings as version 0.1 kept them come into the store. The format is this program's own, written
// here by hand as that version wrote it.
#include "record/store/import_folder.h"

#include <algorithm>

#include "picture/encoding_profile.h"
#include "picture/write_picture.h"
#include "record/comparison_json.h"
#include "record/kept_reading_json.h"
#include "record/store/store_check.h"
#include "tests/catch.h"
#include "tests/record/kept_area.h"
#include "tests/record/practice_reading.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

void put_old_reading(const std::filesystem::path& file, double de) {
    put_content(file,
                R"({"schema":"tonemend.comparison/1","taken":"2026-11-25T12:00:00Z","tolerance":1.0,)"
                R"("original":{"lab":[50,10,20]},"repair":{"lab":[52,10,20]},"stated":{"light":"led:2700"},)"
                R"("difference":{"de2000":)" +
                    std::to_string(de) + R"(,"de2000_u95":0.2}})");
}

}  // namespace

TEST_CASE(
    "A folder of readings comes into a job of its own, in order, undone ones undone, damaged ones said") {
    const ScratchFolder home;
    const std::filesystem::path folder = home / "chair seat";
    std::filesystem::create_directories(folder);
    put_old_reading(folder / "0001-live.json", 4);
    put_old_reading(folder / "0003-live.json.undone", 9);
    put_content(folder / "0004-live.json", "{");
    put_content(folder / "notes.json", "{}");
    const PracticeReading bench;
    const ReadingToKeep reading = bench.to_keep(bench.frame);
    WriteOptions options;
    options.icc_profile = encoding_profile(bench.frame.encoding);
    write_picture(bench.frame, folder / "0002-bench.frame.png", options);
    write_picture(bench.frame, folder / "0002-bench.png", options);
    put_content(folder / "0002-bench.json", to_text(reading_json(reading, "0002-bench.frame.png")));

    JobStore store({home / "jobs.sqlite", {}}, StoreUse::keeping);
    const FolderImport brought = import_folder(store, folder);
    CHECK(brought.readings == 3);
    REQUIRE(brought.losses.size() == 1);
    CHECK_THAT(brought.losses[0], contains("0004-live.json"));
    CHECK(store.find_job("chair seat").uid == brought.job.uid);
    const Area area = store.find_area(brought.job.uid, "");
    const auto listed = store.readings(area.uid);
    REQUIRE(listed.size() == 2);
    CHECK(listed[0].de2000 == 4);
    CHECK(listed[0].light == "led:2700");
    CHECK_FALSE(listed[1].annotated.empty());
    AreaReadings readings({{home / "jobs.sqlite", {}}, area.uid, ""});
    CHECK(readings.reopen(listed[1].number).source.frame->samples == bench.frame.samples);
    CHECK(std::filesystem::exists(folder / "0003-live.json.undone"));  // the folder stays as it is
    CHECK_THROWS_WITH(import_folder(store, home / "none"), contains("holds no readings"));
}

TEST_CASE("A folder's readings come by number, with their pictures byte for byte") {
    const ScratchFolder home;
    const std::filesystem::path folder = home / "table";
    std::filesystem::create_directories(folder);
    // As text "10000" is before "9999".
    put_old_reading(folder / "10000-live.json", 3);
    put_old_reading(folder / "0012-live.json", 1);
    put_old_reading(folder / "9999-live.json", 2);
    put_old_reading(folder / "100000-a.json.json", 5);  // of a picture called a.json.png
    const PracticeReading bench(8, 480, 360);
    write_picture(bench.frame, folder / "0012-live.png");
    write_picture(bench.frame, folder / "100000-a.json.png");
    JobStore store({home / "jobs.sqlite", {}}, StoreUse::keeping);
    const FolderImport brought = import_folder(store, folder);
    CHECK(brought.losses.empty());
    CHECK(brought.readings == 4);
    const auto listed = store.readings(store.find_area(brought.job.uid, "").uid);
    REQUIRE(listed.size() == 4);
    const double in_order[] = {1, 2, 3, 5};
    for (std::size_t i = 0; i < 4; ++i) {
        INFO(i);
        CHECK(listed[i].number == static_cast<int>(i) + 1);
        CHECK(listed[i].de2000 == in_order[i]);
        CHECK(listed[i].annotated.empty() == (i == 1 || i == 2));
    }
    for (const auto& [index, file] : {std::pair{0, "0012-live.png"}, {3, "100000-a.json.png"}}) {
        INFO(file);
        const auto kept = store.picture(listed[static_cast<std::size_t>(index)].annotated);
        CHECK(std::string(reinterpret_cast<const char*>(kept.data()), kept.size()) ==
              content_of(folder / file));
    }
    CHECK(check_store(store.parts()).faults.empty());
}

TEST_CASE(
    "A picture that is missing or damaged is a loss that is named, and its reading comes all the same") {
    const ScratchFolder home;
    const std::filesystem::path folder = home / "table";
    std::filesystem::create_directories(folder);
    const PracticeReading bench(8, 480, 360);
    const ReadingToKeep reading = bench.to_keep(bench.frame);
    const auto put = [&](const char* file, const std::string& frame_file) {
        put_content(folder / file, to_text(reading_json(reading, frame_file)));
    };
    put("0001-gone.json", "0001-gone.frame.png");
    put("0002-half.json", "0002-half.frame.png");
    write_picture(bench.frame, folder / "0002-half.frame.png");
    const std::string whole = content_of(folder / "0002-half.frame.png");
    put_content(folder / "0002-half.frame.png", whole.substr(0, whole.size() / 2));
    put("0003-away.json", "../0003-away.frame.png");  // leads out of the folder
    write_picture(bench.frame, home / "0003-away.frame.png");
    put_old_reading(folder / "0004-drawn.json", 4);
    put_content(folder / "0004-drawn.png", "no picture");
    JobStore store({home / "jobs.sqlite", {}}, StoreUse::keeping);
    const FolderImport brought = import_folder(store, folder);
    CHECK(brought.readings == 4);
    const auto listed = store.readings(store.find_area(brought.job.uid, "").uid);
    REQUIRE(listed.size() == 4);
    for (const ReadingRecord& record : listed) CHECK((record.source.empty() && record.annotated.empty()));
    REQUIRE(brought.losses.size() == 4);
    for (std::size_t i = 0; i < 4; ++i) {
        const char* names[] = {"0001-gone", "0002-half", "0003-away", "0004-drawn"};
        CHECK_THAT(brought.losses[i], contains(names[i]) && contains("without that picture"));
        CHECK(brought.losses[i].find('\n') == std::string::npos);
    }
    CHECK(listed[0].original.L == Approx(reading.comparison.original.lab.L).margin(1e-3));
    CHECK(check_store(store.parts()).faults.empty());
}

TEST_CASE("Texts of no form are losses and stop nothing; files that are no readings are passed over") {
    const ScratchFolder home;
    const std::filesystem::path folder = home / "table";
    std::filesystem::create_directories(folder);
    put_old_reading(folder / "0001-sound.json", 1);
    const std::string sound = content_of(folder / "0001-sound.json");
    // A sound reading but for the part where its picture is described.
    for (const auto& [file, frame] :
         {std::pair{"0002-number.json", "7"},
          {"0003-nothing.json", "null"},
          {"0004-list.json", "[1]"},
          {"0005-words.json", R"({"stated":"led"})"},
          {"0006-bare.json", R"({"schema":"tonemend.frame/1","file":"picture"})"}})
        put_content(folder / file, sound.substr(0, sound.size() - 1) + R"(,"frame":)" + frame + "}");
    // A sound picture whose name has no ending.
    write_picture(PracticeReading(8, 480, 360).frame, home / "picture.png");
    std::filesystem::rename(home / "picture.png", folder / "picture");
    for (const char* file : {"0007-bytes.json", "0008-empty.json", "0009-array.json"})
        put_content(folder / file, file[3] == '7' ? "\xff\xfe" : file[3] == '8' ? "" : "[]");
    for (const char* file :
         {"12-short.json", "1234567-long.json", "abcd-word.json", "0010-note.txt", "0011.json"})
        put_content(folder / file, sound);
    JobStore store({home / "jobs.sqlite", {}}, StoreUse::keeping);
    FolderImport brought;
    REQUIRE_NOTHROW(brought = import_folder(store, folder));
    CHECK(brought.readings == 6);
    CHECK(brought.losses.size() == 4 + 3);  // pictures, readings
    for (const char* file : {"0002", "0003", "0004", "0005", "0007", "0008", "0009"}) {
        INFO(file);
        CHECK(std::count_if(brought.losses.begin(), brought.losses.end(), [&](const std::string& loss) {
                  return loss.find(std::string(file) + "-") != std::string::npos;
              }) == 1);
    }
    CHECK(check_store(store.parts()).faults.empty());
}
