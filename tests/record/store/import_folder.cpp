// Folders of readings as version 0.1 kept them come into the store. The format is this program's own, written
// here by hand as that version wrote it.
#include "record/store/import_folder.h"

#include "picture/encoding_profile.h"
#include "picture/write_picture.h"
#include "record/comparison_json.h"
#include "record/kept_reading_json.h"
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
