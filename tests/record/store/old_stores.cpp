// Stores that version 0.1 wrote, as a backup and as its JSON, are read by every later version. The files in
// tests/data never change; `test_record "[write-old-stores]"` writes those of a new version beside them.
#include "record/export/store_json.h"
#include "record/store/store_check.h"
#include "tests/catch.h"
#include "tests/record/store/any_store.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

const std::filesystem::path data = TONEMEND_SOURCE_DIR "/tests/data";

void fill_old(JobStore& store) {
    const JobAtHand job(store);
    FinishingStep step;
    step.area = job.area.uid, step.kind = StepKind::dye, step.colourant = "Walnut 4";
    step.dilution = "2:1", step.coats = 1, step.grit = 180, step.wait_minutes = 40;
    step.done = "2026-11-25T12:30:00Z";
    store.add_step(step);
    ReadingForStore before = reading_for(job.area.uid, 4.5, "picture before");
    before.record.role = ReadingRole::before;
    before.record.light = "led:2700", before.kelvin = 2700, before.light_name = "hall";
    before.text = R"({"schema":"tonemend.comparison/1","frame":{"calibration":{"kind":"saved"}}})";
    const ReadingRecord first = store.add_reading(before);
    ReadingForStore after = reading_for(job.area.uid, 0.5, "picture after");
    after.record.role = ReadingRole::after;
    const ReadingRecord second = store.add_reading(after);
    store.add_comparison({.uid = {},
                          .area = job.area.uid,
                          .kind = ComparisonKind::before_after,
                          .first = first.uid,
                          .second = second.uid,
                          .made = "2026-11-25T13:00:00Z",
                          .text = R"({"schema":"tonemend.before-after/1","gain":4.0})"});
    store.close_job(job.job.uid, "2026-11-25T14:00:00Z");
}

// What fill_old put in, whichever way it came.
void check_old(OpenStore opened) {
    CHECK(check_store(opened).faults.empty());
    JobStore store(std::move(opened));
    const Job job = store.find_job("Hall chair, seat");
    CHECK(job.number == 1);
    CHECK(job.client == "A. Client");
    CHECK(job.closed == "2026-11-25T14:00:00Z");
    const Area area = store.find_area(job.uid, "");
    const auto steps = store.steps(area.uid);
    REQUIRE(steps.size() == 1);
    CHECK(steps[0].colourant == "Walnut 4");
    CHECK(steps[0].dilution == "2:1");
    CHECK(steps[0].wait_minutes == 40);
    const auto readings = store.readings(area.uid);
    REQUIRE(readings.size() == 2);
    CHECK(readings[0].de2000 == 4.5);
    CHECK(readings[0].role == ReadingRole::before);
    CHECK(readings[0].light == "hall (led:2700)");
    CHECK(readings[1].role == ReadingRole::after);
    CHECK(store.reading_text(readings[0].uid).find(R"({"kind":"saved"})") != std::string::npos);
    const auto picture = store.picture(readings[1].annotated);
    CHECK(std::string(reinterpret_cast<const char*>(picture.data()), picture.size()) == "picture after");
    REQUIRE(store.comparisons(area.uid).size() == 1);
    CHECK(store.comparisons(area.uid)[0].second == readings[1].uid);
    CHECK(store.undo(job.uid) == "closing the job");
}

}  // namespace

TEST_CASE("A backup of version 1 is restored whole") {
    const AnyStore place("sqlite");
    OpenStore old = open_backup_file(data / "jobs-1.backup");
    OpenStore now = open_store(place.location, StoreUse::keeping);
    CHECK(copy_store(old, now).losses.empty());
    check_old(std::move(now));
}

TEST_CASE("JSON of version 1 is imported whole, and exported again with the same bytes") {
    const AnyStore place("sqlite");
    OpenStore now = open_store(place.location, StoreUse::keeping);
    CHECK(read_store_json(data / "jobs-1.json", now).losses.empty());
    write_store_json(now, place.scratch / "again.json", WithPictures::yes);
    CHECK(content_of(place.scratch / "again.json") == content_of(data / "jobs-1.json"));
    check_old(std::move(now));
}

TEST_CASE("Write the files of an older version", "[.write-old-stores]") {
    const AnyStore place("sqlite");
    {
        JobStore store = place.open();
        fill_old(store);
    }
    OpenStore from = open_store(place.location, StoreUse::keeping);
    {
        OpenStore to = make_backup_file(data / "jobs-1.backup");
        copy_store(from, to);
    }
    write_store_json(from, data / "jobs-1.json", WithPictures::yes);
}
