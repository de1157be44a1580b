// The user's pairs of bare and finished wood, kept in one file.
#include "record/finish_pairs.h"

#include "picture/input_error.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

KeptFinishPair pair_of(const std::string& wood, const std::string& finish, FinishLook look, double L) {
    return {wood,
            finish,
            look,
            {{L, 8, 22}, {L - 9, 11, 27}, {0.3, 0.2, 0.1}, {0.4, 0.5, 0.6}},
            "2026-11-25T10:00:00Z"};
}

}  // namespace

TEST_CASE("Finish pairs come back as they were added, in their order") {
    const ScratchFolder folder;
    const auto path = folder / "deep" / "pairs.json";
    CHECK(read_finish_pairs(path).empty());
    add_finish_pair(path, pair_of("oak", "bench varnish", FinishLook::finished, 60));
    add_finish_pair(path, pair_of("oak", "bench varnish", FinishLook::wet, 62));
    const auto pairs = read_finish_pairs(path);
    REQUIRE(pairs.size() == 2);
    CHECK(pairs[0].wood == "oak");
    CHECK(pairs[0].finish == "bench varnish");
    CHECK(pairs[0].pair.bare.L == 60);
    CHECK(pairs[0].pair.finished.L == 51);
    CHECK(pairs[0].pair.bare_u95[2] == 0.1);
    CHECK(pairs[0].pair.finished_u95[0] == 0.4);
    CHECK(pairs[0].read == "2026-11-25T10:00:00Z");
    CHECK(pairs[1].look == FinishLook::wet);
}

TEST_CASE("Pairs are chosen by wood, finish and look, whatever the case of the letters") {
    const std::vector<KeptFinishPair> pairs{pair_of("Oak", "Bench Varnish", FinishLook::finished, 60),
                                            pair_of("oak", "bench varnish", FinishLook::wet, 61),
                                            pair_of("oak", "wax", FinishLook::finished, 62),
                                            pair_of("ash", "bench varnish", FinishLook::finished, 63)};
    const auto chosen = choose_pairs(pairs, "oak", "bench varnish", FinishLook::finished);
    REQUIRE(chosen.size() == 1);
    CHECK(chosen[0].bare.L == 60);
}

TEST_CASE("A damaged list of pairs is refused with the place and the cure, and left as it was") {
    const ScratchFolder folder;
    const auto path = folder / "pairs.json";
    add_finish_pair(path, pair_of("oak", "wax", FinishLook::finished, 60));
    std::string text = content_of(path);
    text.replace(text.find("[\n    60"), 8, "[\n  6000");
    struct Row {
        std::string content, says;
    };
    const Row rows[] = {
        {"no json", "--pairs"}, {"{\"schema\": \"other\"}", "schema"}, {text, "pairs[0].bare"}};
    for (const Row& row : rows) {
        put_content(path, row.content);
        CHECK_THROWS_WITH(read_finish_pairs(path), contains(row.says));
        CHECK_THROWS_AS(add_finish_pair(path, pair_of("ash", "wax", FinishLook::finished, 50)), InputError);
        CHECK(content_of(path) == row.content);
    }
}
