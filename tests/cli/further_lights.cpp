// --also-under, as a user gives it. The bounds are the practice bench's own truth; the contract is this
// program's.
#include <cmath>

#include "picture/write_picture.h"
#include "practice/render.h"
#include "tests/catch.h"
#include "tests/cli/bench.h"
#include "tests/cli/refusal.h"
#include "tests/support/scratch_folder.h"
#include "tests/support/wood_card.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

/// One pair on the bench with a card of six steps and six woods, under daylight and under an old bulb.
struct TwoLamps {
    PracticeOptions options(const std::string& lamp) const {
        PracticeOptions all = small_picture(5);
        all.card = card.path();
        all.pair = PairKind::earth;
        all.pair_lamp = "CIE-D65";
        all.lamp = lamp;
        return all;
    }
    std::string write(const char* name, const PracticeOptions& of) const {
        write_picture(render(make_scene(of)), folder / name);
        return folder / name;
    }
    std::vector<std::string> compare(const std::vector<std::string>& more) const {
        return with({"compare", day, "--original", text_of(scene.original.region), "--repair",
                     text_of(scene.repair.region), "--card", card.path()},
                    more);
    }

    WoodCard card{6};
    ScratchFolder folder;
    PracticeScene scene = make_scene(options("CIE-D65"));
    std::string day = write("day.tif", options("CIE-D65"));
    std::string bulb = write("bulb.tif", options("CIE-A"));
};

}  // namespace

TEST_CASE("A second lamp makes the reading better, and the output says by how much") {
    const TwoLamps bench;
    const auto alone = compare_json(bench.compare({"--light", "CIE-D65"}));
    CHECK(alone["light"]["further_lights"].is_null());
    const auto both =
        compare_json(bench.compare({"--light", "CIE-D65", "--also-under", "CIE-A=" + bench.bulb}));
    const auto& further = both["light"]["further_lights"];
    CHECK(further["lights"].size() == 2);
    CHECK(further["pictures"] == nlohmann::json{"day.tif", "bulb.tif"});
    CHECK(further["known_patches"] == 6);
    REQUIRE(further["used"] == true);
    CHECK(further["camera_u95_together"].get<double>() < further["camera_u95_alone"].get<double>());
    CHECK(further["shift_px"].get<double>() < 0.3);
    const double miss = std::abs(both["difference"]["de2000"].get<double>() - truth(bench.scene).de2000);
    CHECK(miss <= both["difference"]["de2000_u95"].get<double>());
    CHECK(miss < 0.2);
}

TEST_CASE("A second lamp like the first is not used, and the warning says what it would have done") {
    const TwoLamps bench;
    PracticeOptions again = bench.options("CIE-D65");
    again.noise = 1.01;
    const std::string twin = bench.write("twin.tif", again);
    const auto json = compare_json(bench.compare({"--light", "CIE-D65", "--also-under", "CIE-D65=" + twin}));
    CHECK(json["light"]["further_lights"]["used"] == false);
    bool warned = false;
    for (const auto& warning : json["warnings"]) warned |= warning["code"] == "further-lights-no-help";
    CHECK(warned);
    const auto alone = compare_json(bench.compare({"--light", "CIE-D65"}));
    CHECK(json["difference"] == alone["difference"]);
}

TEST_CASE("Further lights that cannot serve are refused in one line with the cure") {
    const TwoLamps bench;
    const auto refused = [&](const std::vector<std::string>& more, const std::string& culprit,
                             const std::string& cure) {
        check_refused(run_tonemend(bench.compare(more)), culprit, cure);
    };
    refused({"--also-under", "CIE-A=" + bench.bulb}, "--also-under", "--light");
    refused({"--light", "CIE-D65", "--also-under", bench.bulb}, "--also-under", "LIGHT=PICTURE");
    refused({"--light", "CIE-D65", "--also-under", "moon=" + bench.bulb}, "moon", "");
    refused({"--light", "CIE-D65", "--also-under", "CIE-A=" + (bench.folder / "none.tif").string()},
            "none.tif", "");
    refused({"--light", "CIE-D65", "--also-under", "CIE-A=" + bench.bulb, "--also-flat", "a.tif",
             "--also-flat", "b.tif"},
            "--also-flat", "one for each");
    PracticeOptions bare = bench.options("CIE-A");
    bare.card_mount = CardMount::bare;
    refused({"--light", "CIE-D65", "--also-under", "CIE-A=" + bench.write("bare.tif", bare)}, "bare.tif",
            "four markers");
}

TEST_CASE("Further lights on a card of greys alone are refused, since nothing tells what they show") {
    const TwoLamps bench;
    PracticeOptions grey = small_picture(5);
    grey.pair_lamp = "CIE-D65";
    const std::string day = bench.write("grey-day.tif", grey);
    grey.lamp = "CIE-A";
    const std::string bulb = bench.write("grey-bulb.tif", grey);
    const PracticeScene scene = make_scene(grey);
    check_refused(run_tonemend(with(compare_arguments(scene, day),
                                    {"--light", "CIE-D65", "--also-under", "CIE-A=" + bulb})),
                  "grey-day.tif", "3 coloured patches");
}
