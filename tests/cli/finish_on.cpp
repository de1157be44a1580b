// tonemend finish-on, as a user gives it.
#include <cmath>

#include <nlohmann/json.hpp>

#include "picture/write_picture.h"
#include "practice/render.h"
#include "refusal.h"
#include "run_command.h"
#include "tests/catch.h"
#include "tests/cli/bench.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

struct Shelf {
    ScratchFolder folder;
    std::vector<std::string> words(const std::vector<std::string>& more) const {
        return with(
            {"finish-on", "--wood", "oak", "--finish", "bench varnish", "--pairs", folder / "pairs.json"},
            more);
    }
    nlohmann::json json(const std::vector<std::string>& more) const {
        const CommandResult result = run_tonemend(with(words(more), {"--json"}));
        INFO(result.err);
        REQUIRE(result.status == 0);
        return nlohmann::json::parse(result.out);
    }
};

}  // namespace

TEST_CASE("The finished look is foretold from a colour, and a pair that is added draws it nearer") {
    const Shelf shelf;
    const auto alone = shelf.json({"--bare", "62,9,25"});
    CHECK(alone["schema"] == "tonemend.finish-on/1");
    CHECK(alone["pairs"] == 0);
    CHECK(alone["lab"][0].get<double>() < 58);
    const auto with_pair = shelf.json({"--bare", "62,9,25", "--add-pair", "50,14,33"});
    CHECK(with_pair["pairs"] == 1);
    CHECK(with_pair["pair_kept"] == true);
    const auto off_pair = [](const nlohmann::json& look) {
        return std::abs(look["lab"][0].get<double>() - 50);
    };
    CHECK(off_pair(with_pair) < off_pair(alone));
    CHECK(with_pair["de2000_u95"].get<double>() < alone["de2000_u95"].get<double>());
    // Another wood or look has pairs of its own.
    CHECK(shelf.json({"--bare", "62,9,25", "--wet"})["pairs"] == 0);
    CHECK(shelf.json({"--bare", "62,9,25"})["pairs"] == 1);
    CHECK_THAT(run_tonemend(shelf.words({"--list"})).out, contains("oak, bench varnish"));
}

TEST_CASE("Wet wood comes with the cautions that thinner needs") {
    const Shelf shelf;
    const CommandResult result = run_tonemend(shelf.words({"--bare", "62,9,25", "--wet"}));
    CHECK(result.status == 0);
    CHECK_THAT(result.out, contains("ventilate"));
    CHECK_THAT(result.out, contains("closed metal can"));
    CHECK_THAT(result.out, contains("safety sheet first"));
}

TEST_CASE("Bare and finished wood are read from pictures with the card") {
    const Shelf shelf;
    PracticeOptions options = small_picture(4);
    options.finish = Finish::raw;
    const PracticeScene bare = make_scene(options);
    options.finish = Finish::clear_coat;
    const PracticeScene finished = make_scene(options);
    write_picture(render(bare), shelf.folder / "bare.tif");
    write_picture(render(finished), shelf.folder / "finished.tif");
    const auto json =
        shelf.json({shelf.folder / "bare.tif", "--region", text_of(bare.original.region), "--card",
                    "six-step-card", "--add-pair-from", shelf.folder / "finished.tif"});
    CHECK(json["pairs"] == 1);
    CHECK(json["lab"][0].get<double>() < json["bare_lab"][0].get<double>() - 3);
}

TEST_CASE("What finish-on cannot use is refused in one line, and no pair is kept") {
    const Shelf shelf;
    check_refused(run_tonemend(shelf.words({})), "--bare", "62.3,9.1,24.8");
    check_refused(run_tonemend(shelf.words({"--bare", "62"})), "--bare", "three numbers");
    check_refused(run_tonemend({"finish-on", "--bare", "62,9,25"}), "--wood", "--finish");
    check_refused(run_tonemend(shelf.words({"a.tif"})), "--region", "for example");
    check_refused(run_tonemend(shelf.words({"a.tif", "--region", "1,1,9,9"})), "a.tif", "");
    check_refused(run_tonemend(shelf.words({"--bare", "62,9,25", "--add-pair", "dark"})), "--add-pair",
                  "52.3,14.1,27.8");
    CHECK(!std::filesystem::exists(shelf.folder / "pairs.json"));
    put_content(shelf.folder / "pairs.json", "{}");
    check_refused(run_tonemend(shelf.words({"--bare", "62,9,25"})), "pairs.json", "--pairs");
}
