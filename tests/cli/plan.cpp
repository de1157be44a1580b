// `tonemend kit`, `board` and `plan` as a restorer uses them: a kit, strips read from pictures, a plan, a
// coat, the next plan. The contract is this program's own.
#include <nlohmann/json.hpp>

#include "bench.h"
#include "practice/write_practice.h"
#include "run_command.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

/// A shop with a store of its own.
struct PlanningShop {
    /// `tonemend …`, which must end with `status`.
    std::string run(const std::vector<std::string>& words, int status = 0) const {
        const CommandResult result = run_tonemend(with(words, {"--store", folder / "jobs.sqlite"}));
        INFO(result.out << result.err);
        CHECK(result.status == status);
        return status == 0 ? result.out : result.err;
    }
    // A picture of an original and of a repair of one oak, told how they were coloured.
    PracticeScene picture(const std::string& name, const PracticeSide& original,
                          const PracticeSide& repair) const {
        PracticeOptions options = small_picture();
        options.wood = "oak", options.original = original, options.repair = repair;
        const PracticeScene scene = make_scene(options);
        write_practice(scene, folder / name);
        return scene;
    }
    ScratchFolder folder;
};

const PracticeSide bare_oak{};
const PracticeSide old_finish{{{"Walnut Dusk dye", 0.35}, {"Rust Wharf stain", 0.4}}, Finish::clear_coat};

}  // namespace

TEST_CASE("From an empty shelf to a plan that learns: kit, board, strips from pictures, coats, cup") {
    const PlanningShop shop;
    shop.run({"job", "start", "Chapel bench", "--wood", "oak"});
    CHECK(shop.run({"plan", "1"}, 1).find("kit new") != std::string::npos);
    shop.run({"kit", "new", "mill shop"});
    CHECK(shop.run({"plan", "1"}, 1).find("nothing that colours") != std::string::npos);
    CHECK_THAT(shop.run({"kit", "add", "Walnut Dusk dye", "--kind", "dye-alcohol", "--hue", "brown"}),
               contains("0 to 9 parts alcohol") && contains("keep flames") && contains("label"));
    // The caution of a kind is shown once.
    CHECK(shop.run({"kit", "add", "Red Barn dye", "--kind", "dye-alcohol"}).find("flames") ==
          std::string::npos);
    CHECK_THAT(shop.run({"kit", "add", "Rust Wharf stain", "--kind", "pigment-oil", "--dries", "240"}),
               contains("4 h (its label)") && contains("closed metal can"));
    shop.run({"kit", "add", "bench varnish", "--kind", "clear"});
    CHECK_THAT(shop.run({"kit", "add", "x", "--kind", "paint"}, 1), contains("dye-alcohol, dye-water"));
    CHECK_THAT(shop.run({"kit", "add", "x", "--kind", "glaze", "--hue", "pink"}, 1),
               contains("yellow, orange"));
    CHECK_THAT(shop.run({"kit", "set", "Red Barn dye", "--most-thinner", "6"}), contains("0 to 6 parts"));
    CHECK_THAT(shop.run({"kit", "set", "Red Barn dye", "--least-thinner", "7"}, 1),
               contains("the smaller first"));
    CHECK_THAT(shop.run({"plan", "1"}, 1), contains("no fit reading"));

    shop.run({"board", "new", "scraps", "--wood", "oak", "--grit", "180"});
    CHECK_THAT(shop.run({"board", "guide", "scraps"}, 1), contains("--bare"));
    CHECK_THAT(
        shop.run({"board", "guide", "scraps", "--bare", "69,7,24"}),
        contains("Rust Wharf stain") && contains("a strip of its own") && contains("closed metal can"));
    const PracticeScene bare = shop.picture("bare.png", bare_oak, bare_oak);
    const std::string left = text_of(bare.original.region), right = text_of(bare.repair.region);
    shop.run({"board", "read", "scraps", shop.folder / "bare.png", "--strip", "1=" + left, "--strip",
              "2=" + right, "--card", "six-step-card"});
    shop.run({"board", "coat", "scraps", "1", "Walnut Dusk dye"});
    shop.run({"board", "coat", "scraps", "2", "red barn dye", "--dilution", "1:1"});
    CHECK_THAT(shop.run({"board", "coat", "scraps", "3", "Honey"}, 1), contains("has no 'Honey'"));
    CHECK_THAT(shop.run({"board", "coat", "scraps", "2", "Red Barn dye", "--dilution", "20:1"}, 1),
               contains("0 to 6"));
    shop.picture("dyed.png", {{{"Walnut Dusk dye", 1}}, Finish::raw}, {{{"Red Barn dye", 0.5}}, Finish::raw});
    CHECK_THAT(shop.run({"board", "read", "scraps", shop.folder / "dyed.png", "--strip", "1=" + left,
                         "--strip", "2=" + right, "--card", "six-step-card"}),
               contains("1 coat  L*"));
    CHECK_THAT(shop.run({"board", "read", "scraps", shop.folder / "dyed.png", "--strip", "1"}, 1),
               contains("--strip 2=410"));
    // What cannot be a strip is refused, and nothing is kept of it; a slip is taken back.
    const std::string card = "300,120,80,80";
    CHECK_THAT(shop.run({"board", "read", "scraps", shop.folder / "dyed.png", "--strip", "9=" + card,
                         "--card", "six-step-card"},
                        1),
               contains("nothing is kept"));
    CHECK(shop.run({"board", "show", "scraps"}).find("strip 9") == std::string::npos);
    shop.run({"board", "coat", "scraps", "2", "Red Barn dye", "--dilution", "1:1"});
    CHECK_THAT(shop.run({"board", "undo", "scraps", "2"}),
               contains("the coat of Red Barn dye on strip 2 is taken back"));
    CHECK_THAT(shop.run({"board", "undo", "scraps", "8"}, 1), contains("no strip '8'"));
    CHECK_THAT(shop.run({"board", "list"}), contains("strip 2: Red Barn dye 1:1"));
    CHECK_THAT(shop.run({"kit", "add", "thinner", "--kind", "glaze"}, 1), contains("another name"));
    CHECK_THAT(shop.run({"kit", "set", "Red Barn dye", "--dries", "-5"}, 1), contains("0 to 10080"));
    CHECK_THAT(shop.run({"kit", "show"}), contains("board scraps: oak, 180 grit, 2 strips"));

    shop.picture("before.png", old_finish, bare_oak);
    const std::vector<std::string> regions{"--original", left, "--repair", right, "--card", "six-step-card"};
    CHECK_THAT(shop.run(with({"job", "before", "1", shop.folder / "before.png"}, regions)),
               contains("tonemend plan 1"));
    const std::string plan = shop.run({"plan", "1", "--square-cm", "300"});
    CHECK_THAT(plan, contains("learnt from 2 coats, 2 on this wood") && contains("Best:") &&
                         contains("for 300 cm²") && contains("with the finish on") &&
                         contains("bare and dry it should read") && contains("wait") &&
                         contains("Do the first coat only") && contains("keep flames"));
    CHECK_THAT(plan, contains("the repair is bare and dry. If both are alike: --as-they-are"));
    CHECK_THAT(shop.run({"plan", "1", "--us"}), contains("fl oz"));
    CHECK_THAT(shop.run({"plan", "1", "--tint", "blue"}, 2), contains("blue"));
    CHECK_THAT(shop.run({"job", "coat", "1", "--kind", "dye", "--colourant", "Red Bern dye", "--planned"}),
               contains("no kit has a jar of that name"));
    shop.run({"job", "undo", "1"});
    const auto json = nlohmann::json::parse(shop.run({"plan", "1", "--json"}));
    CHECK(json["schema"] == "tonemend.plan/1");
    REQUIRE_FALSE(json["schedules"].empty());
    const auto& step = json["schedules"][0]["steps"][0];
    double share = 0;
    for (const auto& coat : step["coats"]) share += coat["concentration"].get<double>();
    CHECK(share <= 0.5001);  // begins thinned
    const double foretold = step["bare"]["lab"][0], half = step["bare_u95"][0];

    // The very coat that was planned, as the bench's physics makes it.
    PracticeSide dyed;
    for (const auto& coat : step["coats"]) {
        const std::string jar = coat["colourant"];
        const double concentration = coat["concentration"];
        dyed.coats.push_back({jar, concentration});
        shop.run({"job", "coat", "1", "--kind", coat["kind"] == "pigment-oil" ? "pigment" : "dye",
                  "--colourant", jar, "--dilution", std::to_string(1 / concentration - 1) + ":1", "--grit",
                  "180"});
    }
    CHECK_THAT(shop.run({"plan", "1"}, 1), contains("take a reading"));
    shop.picture("one.png", old_finish, dyed);
    shop.run(with({"job", "after", "1", shop.folder / "one.png"}, regions));
    const auto next = nlohmann::json::parse(shop.run({"plan", "1", "--json"}));
    REQUIRE(next["history"].size() == 1);
    CHECK(std::abs(next["history"][0]["came"]["lab"][0].get<double>() - foretold) < 1.3 * half + 0.5);
    CHECK(next["now_de2000"].get<double>() < json["now_de2000"].get<double>() - 2);
    CHECK_THAT(shop.run({"plan", "1"}), contains("So far (bare)") && contains("came out"));
    CHECK_THAT(shop.run({"plan", "1", "--cup", "Walnut Dusk dye=1", "thinner=3"}),
               contains("in the cup (4 parts)"));
    CHECK_THAT(shop.run({"plan", "1", "--cup", "thinner=3"}, 1), contains("no colourant"));
    CHECK_THAT(shop.run({"plan", "1", "--cup", "Walnut Dusk dye"}, 1), contains("by parts"));
    CHECK_THAT(shop.run({"plan", "1", "--cup", "Walnut Dusk dye=1", "Rust Wharf stain=1"}, 1),
               contains("does not mix"));
    CHECK_THAT(shop.run({"plan", "1", "--keep"}), contains("planned steps are in the job"));
    CHECK_THAT(shop.run({"plan", "1", "--keep"}, 1), contains("planned steps already"));
    CHECK_THAT(shop.run({"job", "show", "1"}), contains("planned"));
    CHECK_THAT(shop.run({"plan", "7"}, 1), contains("holds no job"));
    shop.run({"kit", "remove", "Red Barn dye"});
    shop.run({"board", "drop", "scraps"});
    shop.run({"kit", "drop", "mill shop"});
    CHECK_THAT(shop.run({"kit", "show"}), contains("no kit yet"));
}
