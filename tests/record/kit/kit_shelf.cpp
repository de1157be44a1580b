// Kits and boards in a store of either kind; the contract is this program's own.
#include "record/kit/kit_shelf.h"

#include "record/kit/kit_json.h"
#include "record/store/store_check.h"
#include "tests/catch.h"
#include "tests/record/store/any_store.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

KitJar full_jar() {
    KitJar jar = usual_jar("Walnut 4", KitKind::dye_alcohol);
    jar.carrier = "methylated spirit", jar.least_thinner = 1, jar.most_thinner = 6.5, jar.dry_minutes = 25;
    jar.hue = HueWord::brown, jar.note = "bottle of May";
    return jar;
}

SampleBoard full_board() {
    SampleBoard board{"scraps", "Oak", 180, {}};
    BoardStrip strip{"1", {{"Walnut 4", 2}}, {}};
    strip.readings.push_back(
        {0, "", "led:4000", "2026-11-27T10:00:00Z", {{{70, 7, 25}, {60, 9, 25}, 0.3}, 0.2}});
    strip.readings.push_back({1, "Satin", "", "2026-11-27T11:00:00Z", {plain_look({50, 12, 28}), 0.15}});
    board.strips.push_back(strip);
    return board;
}

void check_shelf(const AnyStore& place) {
    JobStore store = place.open();
    KitShelf shelf(store);
    CHECK(refusal_of([&] { (void)shelf.find_kit(""); }).find("kit new") != std::string::npos);
    KeptKit kept = shelf.start_kit("Mill shop");
    CHECK(refusal_of([&] { (void)shelf.start_kit("MILL shop"); }).find("already") != std::string::npos);
    add_jar(kept.kit, full_jar());
    shelf.save(kept);
    const Kit back = shelf.find_kit("").kit;
    REQUIRE(back.jars.size() == 1);
    CHECK(kit_text(back) == kit_text(kept.kit));
    CHECK(back.jars[0].carrier == "methylated spirit");
    CHECK(back.jars[0].most_thinner == 6.5);
    CHECK(back.jars[0].hue == HueWord::brown);
    KeptBoard board = shelf.start_board(kept, full_board());
    CHECK(refusal_of([&] { (void)shelf.start_board(kept, full_board()); }).find("already") !=
          std::string::npos);
    board.board.strips.push_back({"2", {}, {}});
    shelf.save(board);
    const SampleBoard found = shelf.find_board(kept, "SCRAPS").board;
    CHECK(found.wood == "Oak");
    CHECK(found.grit == 180);
    REQUIRE(found.strips.size() == 2);
    CHECK(board_text(found) == board_text(board.board));
    CHECK(found.strips[0].readings[0].look.look.figure_share == Approx(0.3));
    CHECK(found.strips[0].readings[1].finish == "Satin");
    CHECK(refusal_of([&] { (void)shelf.find_board(kept, "other"); }).find("scraps") != std::string::npos);
    SampleBoard coarse = full_board();
    coarse.name = "coarse", coarse.grit = 5;
    CHECK(refusal_of([&] { (void)shelf.start_board(kept, coarse); }).find("40 to 1000") != std::string::npos);
    (void)shelf.start_kit("Second");
    CHECK(refusal_of([&] { (void)shelf.find_kit(""); }).find("--kit") != std::string::npos);
    // Somebody else changed it meanwhile: nothing of theirs is lost.
    KeptBoard stale = shelf.find_board(kept, "scraps"), fresh = stale;
    fresh.board.strips.push_back({"theirs", {}, {}});
    shelf.save(fresh);
    stale.board.strips.clear();
    CHECK(refusal_of([&] { shelf.save(stale); }).find("once more") != std::string::npos);
    CHECK(shelf.find_board(kept, "scraps").board.strips.back().name == "theirs");
    shelf.take_away(board);
    CHECK(shelf.boards(kept).empty());
    shelf.take_away(shelf.find_kit("Second"));
    CHECK(shelf.kits().size() == 1);
    CHECK(check_store(store.parts()).faults.empty());
}

}  // namespace

TEST_CASE("Kits and boards come back as they were kept, in a file and on a server") {
    check_shelf(AnyStore("sqlite"));
    check_shelf(AnyStore("postgres"));
}

TEST_CASE("A kit's or a board's text that is damaged or newer is refused with the cure") {
    for (const char* text : {"", "no JSON", "{}", "[1]", R"({"schema":"tonemend.kit/1"})",
                             R"({"schema":"tonemend.kit/1","name":"a","colourants":[{"name":"x"}]})",
                             R"({"schema":"tonemend.kit/1","name":7,"colourants":[]})"})
        CHECK(refusal_of([&] { (void)kit_of_text(text); }).find("restore") != std::string::npos);
    CHECK(refusal_of([] { (void)kit_of_text(R"({"schema":"tonemend.kit/2"})"); }).find("update") !=
          std::string::npos);
    SampleBoard board = full_board();
    CHECK_FALSE(refusal_of([&] {
                    read_board_text(R"({"schema":"tonemend.board/1","strips":[{}]})", board);
                }).empty());
    for (
        const char* strips :
        {R"([{"name":"1","coats":[{"jar":"a","thinner":-1}],"readings":[]}])",
         R"([{"name":"1","coats":[],"readings":[{"coats":0,"finish":"","light":"","taken":"","ground":[1e300,0,0],"u":0.1}]}])",
         R"([{"name":"1","coats":[],"readings":[{"coats":0,"finish":"","light":"","taken":"","ground":[50,0,0],"u":-1}]}])"})
        CHECK(refusal_of([&] {
                  read_board_text(std::string(R"({"schema":"tonemend.board/1","strips":)") + strips + "}",
                                  board);
              }).find("restore") != std::string::npos);
    CHECK(board.strips.size() == 1);  // as it was
}
