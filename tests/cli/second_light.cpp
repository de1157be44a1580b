// second-light and lights, as a user gives them. Bounds are the practice bench's own truth; the contract is
// this program's.
#include <cmath>

#include "colour/difference.h"
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

/// One repair of other colourants on the bench, under daylight and under an old bulb.
struct DayAndBulb {
    explicit DayAndBulb(PairKind pair = PairKind::other, double difference = 0.5)
        : kind(pair), apart(difference) {}

    PracticeOptions options(const std::string& lamp) const {
        PracticeOptions all = small_picture(5);
        all.pair = kind;
        all.difference = apart;
        all.pair_lamp = "CIE-D65";
        all.lamp = lamp;
        return all;
    }
    std::string write(const char* name, const PracticeOptions& of) const {
        write_picture(render(make_scene(of)), folder / name);
        return folder / name;
    }
    std::vector<std::string> command(const std::vector<std::string>& more) const {
        return with({"second-light", day, bulb, "--original", text_of(scene.original.region), "--repair",
                     text_of(scene.repair.region), "--card", "six-step-card"},
                    more);
    }
    std::vector<std::string> stated(const std::vector<std::string>& more) const {
        return with(command({"--light-1", "CIE-D65", "--light-2", "CIE-A"}), more);
    }

    PairKind kind;
    double apart;
    ScratchFolder folder;
    PracticeScene scene = make_scene(options("CIE-D65"));
    PracticeScene warm = make_scene(options("CIE-A"));
    std::string day = write("day.tif", options("CIE-D65"));
    std::string bulb = write("bulb.tif", options("CIE-A"));
};

double number(const nlohmann::json& value) {
    return value.get<double>();
}

}  // namespace

TEST_CASE("second-light reads the pair under both lamps and says how it moves") {
    const DayAndBulb bench;
    const auto json = compare_json(bench.stated({}));
    CHECK(json["schema"] == "tonemend.second-light/1");
    REQUIRE(json["lights"].size() == 2);
    REQUIRE(json["changes"].size() == 1);
    const auto& change = json["changes"][0];
    CHECK(json["verdict"] == change["verdict"]);
    CHECK(json["lights"][0]["kelvin"].get<double>() == Approx(6504).margin(5));  // CIE 15:2018: D65
    CHECK(json["lights"][1]["kelvin"].get<double>() == Approx(2856).margin(5));  // CIE 15:2018: A
    CHECK(json["lights"][1]["regions"]["original"] == "carried");
    const Truth day = truth(bench.scene), bulb = truth(bench.warm);
    const std::array<double, 2> known{day.de2000, bulb.de2000};
    for (std::size_t i = 0; i < 2; ++i) {
        const auto& difference = json["lights"][i]["comparison"]["difference"];
        CHECK(std::abs(number(difference["de2000"]) - known[i]) <= number(difference["de2000_u95"]));
    }
    const auto apart = [](const Truth& t) {
        return std::array{t.repair.lab.L - t.original.lab.L, t.repair.lab.a - t.original.lab.a,
                          t.repair.lab.b - t.original.lab.b};
    };
    for (std::size_t k = 0; k < 3; ++k)
        CHECK(std::abs(number(change["shift"][k]) - (apart(bulb)[k] - apart(day)[k])) <=
              1.5 * number(change["shift_u95"][k]));
    CHECK(number(change["unlikeness"]) > 2);
    CHECK(change["words"].get<std::string>().starts_with("Under CIE-A the repair "));
}

TEST_CASE("A repair with the original's own colourants holds, and limits can be set") {
    const DayAndBulb bench(PairKind::same_colourant);
    CHECK(compare_json(bench.stated({"--colourants", "same"}))["verdict"] == "holds");
    const auto strict =
        compare_json(bench.stated({"--colourants", "same", "--caution", "0.05", "--alarm", "0.06"}));
    CHECK(strict["verdict"] == "alarm");
    CHECK(strict["alarm"] == 0.06);
    check_refused(run_tonemend(bench.stated({"--caution", "3", "--alarm", "2"})), "--caution", "smaller");
}

TEST_CASE("The summary says both differences, the verdict, the index and what no camera knows") {
    const DayAndBulb bench;
    const CommandResult result = run_tonemend(bench.command({}));
    CHECK(result.status == 0);
    for (const char* words :
         {"1  light 1, temperature not known", "metamerism index", "repair minus original", "lights-unknown",
          "No camera knows", "regions carried over from picture 1"})
        CHECK(result.out.find(words) != std::string::npos);
}

TEST_CASE("Annotated copies are written one a picture, or none") {
    const DayAndBulb bench;
    const auto copy = (bench.folder / "seen.png").string();
    CHECK(run_tonemend(bench.stated({"--save-picture", copy})).status == 0);
    CHECK(read_picture(bench.folder / "seen-1.png").width > 0);
    CHECK(read_picture(bench.folder / "seen-2.png").width > 0);
    CHECK_FALSE(std::filesystem::exists(copy));
    check_refused(run_tonemend(bench.stated({"--save-picture", (bench.folder / "seen.jpg").string()})),
                  "seen-1.jpg", ".png");
}

TEST_CASE("Pictures and options that cannot serve are refused in one line with the cure") {
    const DayAndBulb bench;
    const auto regions = [&](std::vector<std::string> pictures) {
        pictures.insert(pictures.begin(), "second-light");
        return with(pictures, {"--original", text_of(bench.scene.original.region), "--repair",
                               text_of(bench.scene.repair.region), "--card", "six-step-card"});
    };
    CHECK(run_tonemend(regions({bench.day})).status == 2);
    check_refused(run_tonemend(regions({bench.day, bench.day})), "day.tif", "under each light");
    check_refused(run_tonemend(regions({bench.day, (bench.folder / "none.tif").string()})), "none.tif", "");
    check_refused(run_tonemend(bench.command({"--light-2", "moon"})), "'moon'", "lights add");
    check_refused(run_tonemend(bench.command({"--light-3", "CIE-A"})), "-3", "third picture");
    check_refused(run_tonemend(bench.command({"--original-2", "1,2,3"})), "--original-2", "");
    PracticeOptions bare = bench.options("CIE-A");
    bare.card_mount = CardMount::bare;
    check_refused(run_tonemend(regions({bench.day, bench.write("bare.tif", bare)})), "bare.tif",
                  "--card-at-2");
}

TEST_CASE("Lights are kept by name, listed, used by compare and second-light, and removed") {
    const DayAndBulb bench;
    const auto file = (bench.folder / "lights.json").string();
    const auto lights = [&](std::vector<std::string> words) {
        words.insert(words.begin(), "lights");
        return run_tonemend(with(words, {"--lights", file}));
    };
    CHECK(lights({}).out.find("no lights are kept") != std::string::npos);
    CHECK(lights({"add", "shop window", "CIE-D65", "--place", "north side"}).status == 0);
    CHECK(lights({"add", "old bulb", "CIE-A", "--lamp", "clear glass"}).status == 0);
    const std::string list = lights({}).out;
    for (const char* words : {"shop window", "north side", "old bulb", "2856 K", "clear glass"})
        CHECK(list.find(words) != std::string::npos);
    check_refused(lights({"add", "Old bulb", "2700"}), "'Old bulb'", "--force");
    check_refused(lights({"add", "2700", "CIE-A"}), "'2700'", "a letter first");
    check_refused(lights({"add", "moon", "bright"}), "bright", "");
    check_refused(lights({"remove", "kitchen"}), "'kitchen'", "'tonemend lights' lists");
    const auto json =
        compare_json(bench.command({"--light-1", "shop window", "--light-2", "old bulb", "--lights", file}));
    CHECK(json["lights"][1]["name"] == "old bulb");
    CHECK(json["lights"][1]["stated"] == "CIE-A");
    const auto single = with(compare_arguments(bench.scene, bench.bulb), {"--lights", file, "--light"});
    CHECK(compare_json(with(single, {"old bulb"})) == compare_json(with(single, {"CIE-A"})));
    CHECK(lights({"remove", "old bulb"}).status == 0);
    CHECK(lights({}).out.find("old bulb") == std::string::npos);
    CHECK(lights({"dim"}).status == 2);
}

TEST_CASE("A raw picture checks a kept light's temperature; a developed one is refused") {
    const DayAndBulb bench;
    const auto file = (bench.folder / "lights.json").string(), raw = (bench.folder / "bulb.dng").string();
    const PracticeScene scene = make_scene(bench.options("CIE-A"));
    write_dng(to_mosaic(scene, take_picture(scene)), raw);
    const auto lights = [&](std::vector<std::string> words) {
        words.insert(words.begin(), "lights");
        return run_tonemend(with(words, {"--lights", file}));
    };
    REQUIRE(lights({"add", "old bulb", "CIE-A"}).status == 0);
    check_refused(lights({"check", "old bulb", bench.bulb, "--card", "six-step-card"}), "bulb.tif", "raw");
    CHECK(lights({"check", "old bulb", raw, "--card", "six-step-card"}).status == 0);
    const auto kept = nlohmann::json::parse(content_of(file));
    // CIE 15:2018: illuminant A is 2856 K.
    CHECK(number(kept["lights"][0]["checked"]["kelvin"]) == Approx(2856).epsilon(0.03));
}
