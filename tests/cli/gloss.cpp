// tonemend gloss, as a user gives it. The bounds are the practice bench's own truth; the contract is this
// program's.
#include <cmath>
#include <fstream>

#include "picture/read_picture.h"
#include "picture/write_picture.h"
#include "practice/render.h"
#include "tests/catch.h"
#include "tests/cli/bench.h"
#include "tests/cli/refusal.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

struct TwoPlaces {
    PracticeOptions options(double lamp) const {
        PracticeOptions all = small_picture(6);
        all.difference = 3;
        all.repair_gloss_percent = 3;
        all.lamp_from = lamp;
        all.fall_off_percent = 6;
        return all;
    }
    std::string write(const char* name, const PracticeOptions& of) const {
        write_picture(render(make_scene(of)), folder / name);
        return folder / name;
    }
    std::string sheet(const char* name, double lamp) const {
        PracticeOptions of = options(lamp);
        of.subject = PracticeSubject::grey_sheet;
        return write(name, of);
    }
    std::vector<std::string> gloss(const std::vector<std::string>& pictures,
                                   const std::vector<std::string>& more = {}) const {
        std::vector<std::string> all{"gloss"};
        all.insert(all.end(), pictures.begin(), pictures.end());
        return with(with(all, {"--original", text_of(scene.original.region), "--repair",
                               text_of(scene.repair.region), "--card", "six-step-card"}),
                    more);
    }
    nlohmann::json json(const std::vector<std::string>& arguments) const {
        const CommandResult result = run_tonemend(with(arguments, {"--json"}));
        INFO(result.err);
        REQUIRE(result.status == 0);
        return nlohmann::json::parse(result.out);
    }

    ScratchFolder folder;
    PracticeScene scene = make_scene(options(0));
    std::string front = write("front.tif", options(0)), left = write("left.tif", options(100));
};

}  // namespace

TEST_CASE("Gloss is taken off the comparison and the sheens are compared") {
    const TwoPlaces bench;
    const auto json =
        bench.json(bench.gloss({bench.front, bench.left},
                               {"--flat", bench.sheet("s0.tif", 0), "--flat", bench.sheet("s1.tif", 100)}));
    CHECK(json["schema"] == "tonemend.gloss/1");
    CHECK(json["comparison"]["schema"] == "tonemend.comparison/1");
    CHECK(json["pictures"].size() == 2);
    CHECK(json["repair"]["gloss_by_picture"].size() == 2);
    CHECK(json["sheen"]["verdict"] == "repair-glossier");
    CHECK(json["repair"]["gloss_percent"].get<double>() == Approx(3).margin(0.9));
    const double known = truth(bench.scene).de2000;
    const double before = std::abs(json["with_gloss"]["de2000"].get<double>() - known);
    const double after = std::abs(json["comparison"]["difference"]["de2000"].get<double>() - known);
    CHECK(before > 0.5);
    CHECK(after < 0.3);
    CHECK_THAT(json["comparison"]["light"]["flat_field"].get<std::string>(), contains("sheet"));
}

TEST_CASE("The numbered flat pictures say the same as the list, and the summary says it in words") {
    const TwoPlaces bench;
    const std::string first = bench.sheet("s0.tif", 0), second = bench.sheet("s1.tif", 100);
    const auto listed =
        bench.json(bench.gloss({bench.front, bench.left}, {"--flat", first, "--flat", second}));
    CHECK(listed ==
          bench.json(bench.gloss({bench.front, bench.left}, {"--flat-1", first, "--flat-2", second})));
    const CommandResult result = run_tonemend(bench.gloss({bench.front, bench.left}));
    CHECK(result.status == 0);
    CHECK_THAT(result.out, contains("without what the finish mirrors"));
    CHECK_THAT(result.out, contains("the repair is glossier"));
}

TEST_CASE("The map is a PNG with the legend below it, and no other format") {
    const TwoPlaces bench;
    const std::string map = bench.folder / "map.png";
    CHECK(run_tonemend(bench.gloss({bench.front, bench.left}, {"--save-map", map})).status == 0);
    const Frame picture = read_picture(map);
    CHECK(picture.width >= bench.scene.options.width);
    CHECK(picture.height > bench.scene.options.height);
    check_refused(run_tonemend(bench.gloss({bench.front, bench.left}, {"--save-map", "map.jpg"})), "map.jpg",
                  ".png");
}

TEST_CASE("Advice needs no picture, warns of heat and draws a picture once") {
    const ScratchFolder folder;
    const std::string drawing = folder / "lamps.svg";
    const CommandResult result = run_tonemend({"gloss", "--advice", "--save-drawing", drawing});
    CHECK(result.status == 0);
    CHECK_THAT(result.out, contains("45°"));
    CHECK_THAT(result.out, contains("melts, fades and can burn"));
    CHECK(std::ifstream(drawing).good());
    check_refused(run_tonemend({"gloss", "--advice", "--save-drawing", drawing}), "lamps.svg", "--force");
}

TEST_CASE("Pictures and flat pictures that cannot serve are refused in one line with the cure") {
    const TwoPlaces bench;
    const auto refused = [&](const std::vector<std::string>& arguments, const std::string& culprit,
                             const std::string& cure) {
        check_refused(run_tonemend(arguments), culprit, cure);
    };
    refused(bench.gloss({bench.front}), "front.tif", "two or more");
    refused(bench.gloss({bench.front, bench.front}), "front.tif", "the same picture");
    refused(bench.gloss({bench.front, bench.left}, {"--flat", bench.front}), "--flat", "one for each");
    refused(bench.gloss({bench.front, bench.left}, {"--flat-3", bench.front}), "--flat-3", "no picture 3");
    refused(bench.gloss({bench.front, bench.left}, {"--card-at", "1,1 9,1 9,9 1,9"}), "--card-at",
            "card frame");
    refused(bench.gloss({bench.front, (bench.folder / "none.tif").string()}), "none.tif", "");
    PracticeOptions bare = bench.options(100);
    bare.card_mount = CardMount::bare;
    refused(bench.gloss({bench.front, bench.write("bare.tif", bare)}), "bare.tif", "four markers");
}

TEST_CASE("Without pictures or regions gloss is a wrong command line") {
    for (const auto& [arguments, says] :
         {std::pair{std::vector<std::string>{"gloss"}, "pictures is required"},
          std::pair{std::vector<std::string>{"gloss", "a.png", "b.png"}, "--original is required"},
          std::pair{std::vector<std::string>{"gloss", "a.png", "b.png", "--original", "1,1,9,9"},
                    "--repair is required"}}) {
        const CommandResult result = run_tonemend(arguments);
        CHECK(result.status == 2);
        CHECK_THAT(result.err, contains(says));
        CHECK_THAT(result.err, contains("for example: tonemend gloss"));
    }
}
