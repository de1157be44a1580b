// What `undo` says it has taken back is as it was before. The contract is this program's own.
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
