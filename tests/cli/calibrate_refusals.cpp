// What calibrate, check and compare --calibration refuse: exit status 1, one line, nothing written. The rules
// are this program's own.
#include <fmt/format.h>
#include <lcms2.h>

#include "bench.h"
#include "practice/write_practice.h"
#include "refusal.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"
#include "tests/support/table_profile.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

struct Bench {
    Bench() {
        write_practice(scene, picture());
        REQUIRE(run_tonemend({"calibrate", picture(), "--card", "six-step-card", "--save", file()}).status ==
                0);
    }
    std::string picture() const { return folder / "board.png"; }
    std::string file() const { return folder / "shop.json"; }
    std::string path(const std::string& name) const { return folder / name; }
    std::vector<std::string> calibrate(const std::vector<std::string>& more) const {
        return with({"calibrate", picture(), "--card", "six-step-card"}, more);
    }
    std::vector<std::string> compare(const std::vector<std::string>& more) const {
        return with(compare_arguments(scene, picture()), more);
    }
    std::vector<std::string> check(const std::vector<std::string>& more) const {
        return with({"check", file(), picture(), "--card", "six-step-card"}, more);
    }
    std::size_t files() const {
        std::size_t count = 0;
        for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator(folder.path())) ++count;
        return count;
    }

    PracticeScene scene = make_scene(small_picture());
    ScratchFolder folder;
};

std::string profile_of_class(cmsProfileClassSignature profile_class, bool table) {
    std::vector<std::uint8_t> bytes = table ? table_profile() : saved(cmsCreate_sRGBProfile());
    for (int i = 0; i < 4; ++i)
        bytes[12 + static_cast<std::size_t>(i)] =
            static_cast<std::uint8_t>(profile_class >> (24 - 8 * i) & 0xff);
    return {bytes.begin(), bytes.end()};
}

}  // namespace

TEST_CASE("Outputs of calibrate that cannot be are refused before anything is measured or written") {
    const Bench bench;
    const std::size_t before = bench.files();
    const auto refused = [&](const std::vector<std::string>& more, const std::string& culprit,
                             const std::string& cure) {
        check_refused(run_tonemend(bench.calibrate(more)), culprit, cure);
        CHECK(bench.files() == before);
    };
    refused({"--save", bench.file()}, "shop.json", "exists; choose another name or add --force");
    refused({"--save", bench.path("shop.txt")}, "--save", "ends in .json");
    refused({"--icc", bench.path("shop.png")}, "--icc", "ends in .icc");
    refused({"--patches-out", bench.path("shop.json")}, "--patches-out", "ends in .txt");
    // The one that cannot be written keeps the others from being.
    refused({"--icc", bench.path("a.icc"), "--save", bench.path("absent/a.json")}, "absent/a.json",
            "check the folder");
    refused({"--patches", bench.path("shop.txt")}, "either a picture", "--patches FILE");
    check_refused(run_tonemend({"calibrate"}), "either a picture", "--patches FILE");
    check_refused(run_tonemend({"calibrate", bench.path("none.png")}), "none.png", "check the name");
    CHECK(run_tonemend(bench.calibrate({"--save", bench.file(), "--force"})).status == 0);
}

TEST_CASE("A table of readings that cannot be calibrated on is refused") {
    const Bench bench;
    const std::string table = bench.path("readings.txt");
    put_content(table, "Dear diary\n");
    check_refused(run_tonemend({"calibrate", "--patches", table, "--card", "six-step-card"}), "readings.txt",
                  "CGATS");
    CHECK(run_tonemend(bench.calibrate({"--patches-out", table, "--force"})).status == 0);
    check_refused(run_tonemend({"calibrate", "--patches", table, "--card", "grey-card"}),
                  "is no patch of the card", "choose the right --card");
    check_refused(run_tonemend({"calibrate", "--patches", table, "--icc", bench.path("a.icc")}), "--icc",
                  "give the picture");
    check_refused(run_tonemend({"calibrate", "--patches", table, "--card-at", "1,1 2,1 2,2 1,2"}),
                  "--card-at", "leave --card-at away");
}

TEST_CASE("A calibration that cannot be read is refused by every command that takes one") {
    const Bench bench;
    const std::string broken = bench.path("broken.json"), region = text_of(bench.scene.original.region);
    const std::string sound = content_of(bench.file());
    struct Case {
        std::string content, what;
    };
    std::string newer = sound;
    newer.replace(newer.find("calibration/1"), 13, "calibration/9");
    for (const Case& one : {Case{"{}", "schema is missing"},
                            {sound.substr(0, sound.size() / 2), "no whole JSON"},
                            {newer, "reads up to tonemend.calibration/1"},
                            {std::string("\x00\xff\xfe", 3), "no whole JSON"}}) {
        put_content(broken, one.content);
        INFO(one.what);
        check_refused(run_tonemend(bench.compare({"--calibration", broken})), "broken.json", one.what);
        check_refused(run_tonemend({"check", broken}), "broken.json", one.what);
        CHECK(content_of(broken) == one.content);
    }
    check_refused(run_tonemend(bench.compare({"--calibration", bench.path("none.json")})), "none.json",
                  "check the name");
    check_refused(run_tonemend(bench.compare({"--calibration", bench.folder.path()})), "is a folder", "give");
}

TEST_CASE("A profile that does not tell what a camera saw is refused") {
    const Bench bench;
    const std::string profile = bench.path("other.icc");
    struct Case {
        std::string content, what, cure;
    };
    const std::string input = "give the input profile of a camera";
    for (const Case& one :
         {Case{"Dear diary, no profile today", "is no ICC profile", input},
          {std::string(400, 'x'), "is no ICC profile", input},
          {profile_of_class(cmsSigOutputClass, true), "profile of a printer", input},
          {profile_of_class(cmsSigDisplayClass, true), "display's lookup table", input},
          {profile_of_class(cmsSigAbstractClass, false), "does not describe a picture", "RGB"},
          {profile_of_class(cmsSigInputClass, true).substr(0, 500), "damaged", "RGB"}}) {
        put_content(profile, one.content);
        check_refused(run_tonemend(bench.compare({"--profile", profile})), one.what, one.cure);
        check_refused(run_tonemend(bench.calibrate({"--profile", profile})), "other.icc", one.cure);
    }
    put_content(profile, profile_of_class(cmsSigInputClass, true));
    CHECK(run_tonemend(bench.compare({"--profile", profile})).status != 1);
}

TEST_CASE("A check that cannot be made is refused, and the chart stays as it was") {
    const Bench bench;
    const std::string before = content_of(bench.file()), region = text_of(bench.scene.original.region);
    const auto refused = [&](const std::vector<std::string>& arguments, const std::string& culprit,
                             const std::string& cure) {
        check_refused(run_tonemend(arguments), culprit, cure);
        CHECK(content_of(bench.file()) == before);
    };
    refused(bench.check({}), "--region", "250,691,389,389");
    refused(bench.check({"--region", region}), "--lab", "at the first check");
    refused(bench.check({"--region", region, "--lab", "brown"}), "--lab 'brown'", "52.3,14.1,27.8");
    refused(bench.check({"--region", region, "--lab", "52.3,14.1"}), "three numbers", "52.3,14.1,27.8");
    refused(bench.check({"--region", region, "--lab", "nan,14.1,27"}), "three numbers", "52.3,14.1,27.8");
    refused(bench.check({"--region", region, "--lab", "152,14,27"}), "between 0 and 100", "52.3,14.1,27.8");
    refused(bench.check({"--region", region, "--lab", "52,14,27", "--warn-at", "5"}), "--warn-at 5",
            "give a smaller one");
    refused(bench.check({"--region", "1,2", "--lab", "52,14,27"}), "--region", "x,y");
    refused({"check", bench.file(), "--lab", "52,14,27"}, "--lab", "give it too");
    refused({"check", bench.file(), bench.path("none.png"), "--region", region, "--lab", "52,14,27"},
            "none.png", "check the name");

    CHECK(run_tonemend(bench.check({"--region", region, "--lab", "52,14,27"})).status == 3);
    const std::string checked = content_of(bench.file());
    check_refused(run_tonemend(bench.check({"--region", region, "--lab", "53,14,27"})), "--lab 53,14,27",
                  "--restart");
    CHECK(content_of(bench.file()) == checked);
}
