// What `undo` says it has taken back is as it was before. The contract is this program's own.
#include "record/store/before_after.h"
#include "tests/catch.h"
#include "tests/record/store/any_store.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

void check_dropped_area(const AnyStore& place) {
    JobStore store = place.open();
    const JobAtHand job(store);
    const Piece stool = store.add_piece({.job = job.job.uid, .name = "Stool", .wood = "Ash"});
    const Area leg = store.add_area({.piece = stool.uid, .name = "Leg"});
    store.drop_empty_area(leg.uid);
    CHECK(store.pieces(job.job.uid).size() == 1);  // the piece had nothing else
    CHECK(store.undo(job.job.uid) == "dropping area 'Leg'");
    CHECK(store.pieces(job.job.uid).size() == 2);
    REQUIRE(store.areas(stool.uid).size() == 1);
    CHECK(store.areas(stool.uid)[0].name == "Leg");
    // Further back, what made them is taken back as ever.
    CHECK(store.undo(job.job.uid) == "area 'Leg'");
    CHECK(store.areas(stool.uid).empty());
    CHECK(store.undo(job.job.uid) == "piece 'Stool'");
    CHECK(store.pieces(job.job.uid).size() == 1);
}

// As in a store that was rescued and has lost who did what.
void check_reading_without_history(const AnyStore& place) {
    JobStore store = place.open();
    const JobAtHand job(store);
    store.add_reading(reading_for(job.area.uid, 2));
    store.parts().database->execute("DELETE FROM changes");
    store.undo_reading(job.job.uid, 1);
    CHECK(store.readings(job.area.uid).empty());
    CHECK(store.undo(job.job.uid) == "undoing reading 1");
    CHECK(store.readings(job.area.uid).size() == 1);
    store.undo_reading(job.job.uid, 1);
    CHECK(store.readings(job.area.uid).empty());
}

}  // namespace

TEST_CASE("What was dropped or undone comes back when that is taken back") {
    for (const char* kind : {"sqlite", "postgres"}) {
        INFO(kind);
        check_dropped_area(AnyStore(kind));
        check_reading_without_history(AnyStore(kind));
    }
}

TEST_CASE("A reading goes with the comparisons that were kept with it, and comes back with them") {
    const AnyStore place("sqlite");
    JobStore store = place.open();
    const JobAtHand job(store);
    ReadingForStore first = reading_for(job.area.uid, 4.5), after = reading_for(job.area.uid, 0.5);
    store.add_reading(first);
    after.record.role = ReadingRole::after;
    after.compare = [&](const ReadingRecord& kept) {
        // It is in the store already, but only for who keeps it.
        const auto pair = find_before_after(store.readings(kept.area));
        REQUIRE(pair);
        CHECK(pair->after.uid == kept.uid);
        ComparisonRecord lights{.uid = {}, .area = kept.area, .kind = ComparisonKind::second_light};
        lights.second = kept.uid, lights.made = kept.taken, lights.text = "{}";
        return std::vector{to_comparison_record(*pair), lights};
    };
    store.add_reading(after);
    REQUIRE(store.comparisons(job.area.uid).size() == 2);
    CHECK(store.undo(job.job.uid) == "reading 2 with its comparison with its second light");
    CHECK(store.readings(job.area.uid).size() == 1);
    CHECK(store.comparisons(job.area.uid).empty());
    // By its number, as the window takes it back.
    store.add_reading(after);
    store.undo_reading(job.job.uid, 3);
    CHECK(store.comparisons(job.area.uid).empty());
    // A comparison that fails keeps nothing.
    after.compare = [](const ReadingRecord&) -> std::vector<ComparisonRecord> {
        throw InputError("no comparison");
    };
    CHECK_THROWS_AS(store.add_reading(after), InputError);
    CHECK(store.readings(job.area.uid).size() == 1);
}

TEST_CASE("Before is the newest one called so, else the first that is fit, and always before the after") {
    const auto reading = [](int number, ReadingRole role, bool unfit) {
        ReadingRecord record;
        record.number = number, record.role = role, record.unfit = unfit;
        return record;
    };
    using enum ReadingRole;
    const auto pair = [](const std::vector<ReadingRecord>& readings) {
        const auto found = find_before_after(readings);
        return found ? std::pair{found->before.number, found->after.number} : std::pair{0, 0};
    };
    CHECK(pair({reading(1, before, false), reading(2, during, false)}) == std::pair{0, 0});
    CHECK(pair({reading(1, before, false), reading(2, before, false), reading(3, after, false),
                reading(4, before, false)}) == std::pair{2, 3});
    CHECK(pair({reading(1, during, true), reading(2, during, false), reading(3, after, false)}) ==
          std::pair{2, 3});
    CHECK(pair({reading(1, during, true), reading(2, after, false)}) == std::pair{0, 0});
}
