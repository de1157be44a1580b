// What a store promises, asked of both kinds: a file (SQLite) and a server of the distribution's PostgreSQL
// that the tests start. The contract is this program's own.
#include <fmt/format.h>

#include <sys/stat.h>

#include <mutex>

#include <nlohmann/json.hpp>
#include <thread>

#include "record/export/store_json.h"
#include "record/store/sha256.h"
#include "record/store/store_check.h"
#include "record/store/store_writer.h"
#include "tests/catch.h"
#include "tests/record/store/any_store.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

void check_jobs_and_undo(const AnyStore& place) {
    JobStore store = place.open();
    JobAtHand first(store), second(store, "Ölbaum-Truhe");
    CHECK(first.job.number == 1);
    CHECK(second.job.number == 2);
    CHECK(store.find_job("2").uid == second.job.uid);
    CHECK(store.find_job("öLBAUM-tRUHE").uid == second.job.uid);  // letters beyond ASCII in either case
    CHECK(refusal_of([&] { (void)store.find_job("chest"); }).find("tonemend job list") != std::string::npos);
    CHECK(store.find_area(first.job.uid, "").uid == first.area.uid);
    CHECK(store.find_area(first.job.uid, "seat, FRONT left").uid == first.area.uid);
    CHECK(refusal_of([&] { (void)store.find_area(first.job.uid, "leg"); }).find("Seat, front left") !=
          std::string::npos);

    const FinishingStep dye = store.add_step({.area = first.area.uid,
                                              .kind = StepKind::dye,
                                              .colourant = "Walnut no. 4",
                                              .carrier = "alcohol",
                                              .dilution = "2:1",
                                              .coats = 2,
                                              .grit = 180,
                                              .wait_minutes = 45,
                                              .done = "2026-11-25T12:00:00Z"});
    CHECK(dye.place == 1);
    CHECK(store.add_step({.area = first.area.uid, .kind = StepKind::seal}).place == 2);
    CHECK_FALSE(refusal_of([&] { store.add_step({.area = first.area.uid, .dilution = "thin"}); }).empty());
    CHECK_FALSE(refusal_of([&] { store.add_step({.area = first.area.uid, .coats = 0}); }).empty());
    REQUIRE(store.steps(first.area.uid).size() == 2);
    CHECK(store.steps(first.area.uid)[0].dilution == "2:1");
    CHECK(store.steps(first.area.uid)[0].wait_minutes == 45);

    const auto copied = store.copy_recipe(first.area.uid, second.area.uid);
    REQUIRE(copied.size() == 2);
    CHECK(copied[0].colourant == "Walnut no. 4");
    CHECK(copied[0].done.empty());  // planned
    store.finish_step(copied[0].uid, "2026-11-26T09:00:00Z");
    CHECK(store.steps(second.area.uid)[0].done == "2026-11-26T09:00:00Z");
    CHECK_FALSE(refusal_of([&] { store.finish_step(copied[0].uid, "2026-11-26T09:00:00Z"); }).empty());

    CHECK(store.undo(second.job.uid).find("doing step 1") != std::string::npos);
    CHECK(store.steps(second.area.uid)[0].done.empty());
    CHECK(store.undo(second.job.uid) == "a recipe of 2 steps");  // all of it at once
    CHECK(store.steps(second.area.uid).empty());
    store.close_job(first.job.uid, "2026-11-26T10:00:00Z");
    CHECK(store.find_job("1").closed == "2026-11-26T10:00:00Z");
    CHECK(store.search({.open_only = true}).size() == 1);
    CHECK(store.undo(first.job.uid) == "closing the job");
    CHECK(store.find_job("1").closed.empty());
    for (int i = 0; i < 2; ++i) (void)store.undo(second.job.uid);  // area, piece
    // The job itself held steps, and stays; one begun by a slip goes.
    CHECK(refusal_of([&] { (void)store.undo(second.job.uid); }).find("close it") != std::string::npos);
    const Job slip = store.start_job({.name = "Chapel bnech"});
    CHECK(store.undo(slip.uid) == fmt::format("job {}", slip.number));
    CHECK_FALSE(refusal_of([&] { (void)store.find_job("Chapel bnech"); }).empty());
    CHECK(refusal_of([&] { (void)store.start_job({.name = "12"}); }).find("number") != std::string::npos);
    CHECK(store.look_up_job("2"));
    CHECK_FALSE(store.look_up_job("3"));
    CHECK_FALSE(refusal_of([&] { (void)store.undo(slip.uid); }).empty());
    CHECK(store.start_job({.name = "third"}).number == 4);  // a number is not used again
}

void check_readings(const AnyStore& place) {
    JobStore store = place.open();
    const JobAtHand job(store);
    ReadingForStore wanted = reading_for(job.area.uid, 4.5, "one picture");
    wanted.record.role = ReadingRole::before;
    wanted.record.light = "led:2700", wanted.light_name = "hall", wanted.kelvin = 2700;
    wanted.source = picture_of("the very picture");
    wanted.text = R"({"schema":"x","frame":{"calibration":{"k":[1.5,2]},"flat_field":{"g":3}}})";
    const ReadingRecord first = store.add_reading(wanted);
    const ReadingRecord second = store.add_reading(reading_for(job.area.uid, 0.7, "one picture"));
    CHECK(first.number == 1);
    CHECK(second.number == 2);
    // SHA-256 of "abc": FIPS 180-4's own example, from memory.
    CHECK(sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(first.annotated == sha256("one picture"));
    CHECK(second.annotated == first.annotated);
    CHECK(store.parts().database->row("SELECT count(*) FROM pictures")->at(0) == SqlValue(std::int64_t{2}));
    const auto listed = store.readings(job.area.uid);
    REQUIRE(listed.size() == 2);
    CHECK(listed[0].role == ReadingRole::before);
    CHECK(listed[0].de2000 == 4.5);
    CHECK(listed[0].verdict == Verdict::off);
    CHECK(listed[1].verdict == Verdict::match);
    CHECK(listed[0].light == "hall (led:2700)");
    CHECK(store.reading_text(first.uid) == wanted.text);
    const auto picture = store.picture(first.source);
    CHECK(std::string(reinterpret_cast<const char*>(picture.data()), picture.size()) == "the very picture");

    const ComparisonRecord pair = store.add_comparison({.uid = {},
                                                        .area = job.area.uid,
                                                        .kind = ComparisonKind::before_after,
                                                        .first = first.uid,
                                                        .second = second.uid,
                                                        .made = "2026-11-25T13:00:00Z",
                                                        .text = "{}"});
    REQUIRE(store.comparisons(job.area.uid).size() == 1);
    CHECK(store.comparisons(job.area.uid)[0].uid == pair.uid);
    const JobDossier all = store.dossier(job.job.uid);
    REQUIRE(all.pieces.at(0).areas.at(0).readings.size() == 2);
    CHECK(all.pieces[0].areas[0].readings[0].text == wanted.text);

    store.undo_reading(job.job.uid, 1);
    CHECK(store.readings(job.area.uid).size() == 1);
    CHECK_FALSE(refusal_of([&] { store.undo_reading(job.job.uid, 1); }).empty());
    CHECK(store.add_reading(reading_for(job.area.uid, 1)).number == 3);
    CHECK(check_store(store.parts()).faults.empty());
}

void check_search(const AnyStore& place) {
    JobStore store = place.open();
    JobAtHand chair(store), chest(store, "Blanket chest");
    const Piece lid = store.add_piece({.job = chest.job.uid, .name = "Lid", .wood = "Cherry 100%"});
    const Area edge = store.add_area({.piece = lid.uid, .name = "Edge"});
    store.add_step({.area = edge.uid, .kind = StepKind::glaze, .colourant = "Smoke_Brown"});
    const auto found = [&](const JobQuery& query) {
        std::string numbers;
        for (const JobSummary& job : store.search(query)) numbers += std::to_string(job.job.number) + " ";
        return numbers;
    };
    CHECK(found({}) == "2 1 ");
    CHECK(found({.words = "CHAIR"}) == "2 1 ");  // a piece's name counts
    CHECK(found({.words = "blanket"}) == "2 ");
    CHECK(found({.wood = "oak"}) == "2 1 ");
    CHECK(found({.wood = "cherry"}) == "2 ");
    CHECK(found({.wood = "100%"}) == "2 ");
    CHECK(found({.wood = "1_0"}).empty());  // a letter like any other
    CHECK(found({.colourant = "smoke_b"}) == "2 ");
    CHECK(found({.colourant = "smokeXb"}).empty());
    CHECK(found({.wood = "oak", .colourant = "smoke"}) == "2 ");
    CHECK(found({.piece = "lid"}) == "2 ");
    CHECK(found({.words = "'; DROP TABLE jobs; --"}).empty());
    CHECK(store.search({.piece = "lid"})[0].woods == "Oak, Cherry 100%");
    store.undo(chest.job.uid);
    CHECK(found({.colourant = "smoke"}).empty());
}

void check_texts(const AnyStore& place) {
    JobStore store = place.open();
    const std::string awkward = std::string("a\0b", 3) + "\xff\xfe 'quoted' \"twice\" \n  end ? $1 \\ %";
    const Job job = store.start_job({.name = awkward, .client = "", .note = "two\nlines"});
    CHECK(store.find_job("1").name == job.name);
    CHECK(job.name.find('\n') == std::string::npos);
    CHECK(store.find_job("1").note == "two\nlines");
    CHECK_FALSE(refusal_of([&] { store.start_job({.name = "  \n "}); }).empty());
    CHECK(store.start_job({.name = std::string(100000, 'x')}).name.size() <= 200);
}

void check_two_at_once(const AnyStore& place) {
    JobStore one = place.open(), two = place.open();
    const JobAtHand job(one);
    std::string trouble;
    std::mutex mutex;
    const auto keep = [&](JobStore& store) {
        try {
            for (int i = 0; i < 25; ++i) store.add_reading(reading_for(job.area.uid, i, std::to_string(i)));
        } catch (const std::exception& error) {
            const std::lock_guard lock(mutex);
            trouble = error.what();
        }
    };
    std::thread other([&] { keep(two); });
    keep(one);
    other.join();
    CHECK(trouble.empty());
    const auto readings = one.readings(job.area.uid);
    REQUIRE(readings.size() == 50);
    for (std::size_t i = 0; i < readings.size(); ++i) CHECK(readings[i].number == static_cast<int>(i) + 1);
    CHECK(check_store(two.parts()).faults.empty());
}

}  // namespace

TEST_CASE("A store in a file keeps jobs, readings and their pictures, finds them and takes them back") {
    check_jobs_and_undo(AnyStore("sqlite"));
    check_readings(AnyStore("sqlite"));
    check_search(AnyStore("sqlite"));
    check_texts(AnyStore("sqlite"));
}

TEST_CASE("A store on a PostgreSQL server keeps and finds the same, and takes back the same") {
    check_jobs_and_undo(AnyStore("postgres"));
    check_readings(AnyStore("postgres"));
    check_search(AnyStore("postgres"));
    check_texts(AnyStore("postgres"));
    check_two_at_once(AnyStore("postgres"));
}

TEST_CASE("Two who write to one file at once wait for each other, and every number is used once") {
    check_two_at_once(AnyStore("sqlite"));
}

TEST_CASE("What is in a store goes to the other kind and back, and into a text and back, byte for byte") {
    const AnyStore file("sqlite"), server("postgres"), again("sqlite"), from_text("postgres");
    JobStore store = file.open();
    const JobAtHand job(store, "näme \"quoted\" \\ \t end");
    ReadingForStore reading = reading_for(job.area.uid, 0.1 + 0.2, "pixels");
    reading.record.original = {1.0 / 3, -1e-300, 1e22};
    reading.record.light = "CIE-A", reading.kelvin = 2855.5;
    reading.text = R"({"schema":"x","frame":{"calibration":{"k":[1.5,1e-9]}}})";
    store.add_reading(reading);
    store.add_step({.area = job.area.uid, .colourant = "x", .wait_minutes = 1.0 / 7});
    store.undo_reading(job.job.uid, 1);
    store.add_comparison({.uid = {}, .area = job.area.uid, .made = "m", .text = "no JSON"});
    store.add_comparison({.uid = {}, .area = job.area.uid, .made = "m", .text = "\"a JSON text\""});
    const auto text_of = [&](OpenStore& from, const std::string& name) {
        const auto path = file.scratch / name;
        CHECK(write_store_json(from, path, WithPictures::yes).empty());
        struct stat facts {};
        stat(path.c_str(), &facts);
        CHECK((facts.st_mode & 0777) == 0600);
        return content_of(path);
    };
    const std::string text = text_of(store.parts(), "a.json");
    CHECK(nlohmann::json::parse(text)["jobs"][0]["name"] == job.job.name);

    JobStore on_server = server.open(), back = again.open(), read_in = from_text.open();
    CHECK(copy_store(store.parts(), on_server.parts()).losses.empty());
    CHECK(text_of(on_server.parts(), "b.json") == text);
    CHECK(copy_store(on_server.parts(), back.parts()).losses.empty());
    CHECK(text_of(back.parts(), "c.json") == text);
    CHECK(read_store_json(file.scratch / "a.json", read_in.parts()).losses.empty());
    CHECK(text_of(read_in.parts(), "d.json") == text);
    CHECK(check_store(read_in.parts()).faults.empty());
    CHECK(check_store(back.parts()).faults.empty());

    // Once more: all is there.
    const CopyOutcome repeated = read_store_json(file.scratch / "a.json", back.parts());
    CHECK(repeated.added == 0);
    CHECK(text_of(back.parts(), "e.json") == text);
}

TEST_CASE("Stores of two benches join into one: numbers that another has are given anew, and said") {
    const AnyStore first("sqlite"), second("sqlite");
    JobStore one = first.open(), two = second.open();
    const JobAtHand here(one, "here"), there(two, "there");
    one.add_reading(reading_for(here.area.uid, 1));
    two.add_reading(reading_for(there.area.uid, 2));
    const CopyOutcome outcome = copy_store(two.parts(), one.parts());
    CHECK(outcome.notes.size() == 1);
    CHECK(one.find_job("there").number == 2);
    CHECK(one.readings(there.area.uid).size() == 1);
    CHECK(one.search({}).size() == 2);
}
