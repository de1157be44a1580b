// Calibrating once and measuring with it: what the commands leave and how they fit together.
#include <fmt/format.h>

#include "bench.h"
#include "practice/write_practice.h"
#include "refusal.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;
using Json = nlohmann::json;

namespace {

/// A picture of the card, calibrated, and another picture of the same bench.
struct Shop {
    Shop() {
        write_practice(scene, picture());
        const CommandResult result = run_tonemend(calibrate(
            {"--save", file(), "--icc", folder / "shop.icc", "--patches-out", folder / "shop.txt"}));
        INFO(result.err);
        REQUIRE(result.status == 0);
        said = result.out;
    }
    std::string picture() const { return folder / "board.png"; }
    std::string file() const { return folder / "shop.json"; }
    std::vector<std::string> calibrate(const std::vector<std::string>& more) const {
        return with({"calibrate", picture(), "--card", "six-step-card"}, more);
    }
    std::vector<std::string> check(const std::vector<std::string>& more) const {
        return with({"check", file(), picture(), "--card", "six-step-card", "--region",
                     text_of(scene.original.region)},
                    more);
    }
    /// The colour of the original region as compare reads it.
    std::string lab(double lighter = 0) const {
        const Json lab = compare_json(compare_arguments(scene, picture()))["original"]["lab"];
        return fmt::format("{},{},{}", lab[0].get<double>() - lighter, lab[1].get<double>(),
                           lab[2].get<double>());
    }

    PracticeScene scene = make_scene(small_picture());
    ScratchFolder folder;
    std::string said;
};

Json without(Json json, const std::vector<std::string>& keys) {
    for (const std::string& key : keys) json.erase(key);
    return json;
}

std::vector<std::string> codes_in(const Json& comparison) {
    std::vector<std::string> codes;
    for (const Json& warning : comparison["warnings"]) codes.push_back(warning["code"]);
    return codes;
}

}  // namespace

TEST_CASE(
    "A calibration says each step, how tones and colours were taken and what it is worth, and is saved") {
    const Shop shop;
    INFO(shop.said);
    for (int step = 1; step <= 6; ++step) CHECK_THAT(shop.said, contains(fmt::format("step-{}", step)));
    for (const char* word : {"grey step", "monotone curve", "worth, on brown wood", "95 %", "saved "})
        CHECK_THAT(shop.said, contains(word));
    const Json saved = Json::parse(content_of(shop.file()));
    CHECK(saved["schema"] == "tonemend.calibration/1");
    CHECK(saved["picture"]["name"] == "board.png");
    CHECK(content_of(shop.folder / "shop.icc").substr(36, 4) == "acsp");
    CHECK(content_of(shop.folder / "shop.txt").starts_with("CGATS.17"));
    const CommandResult printed = run_tonemend(shop.calibrate({"--json"}));
    CHECK(printed.status == 0);
    CHECK(without(Json::parse(printed.out), {"made"}) == without(saved, {"made"}));
}

TEST_CASE("Measuring with the calibration of the same picture measures the same, and says which it was") {
    const Shop shop;
    const auto plain = compare_arguments(shop.scene, shop.picture());
    Json alone = compare_json(plain), saved = compare_json(with(plain, {"--calibration", shop.file()}));
    const std::string made = Json::parse(content_of(shop.file()))["made"];
    CHECK_THAT(saved["light"]["characterisation"].get<std::string>(), contains(made));
    saved["light"].erase("characterisation"), alone["light"].erase("characterisation");
    CHECK(saved == alone);
    const CommandResult summary = run_tonemend(with(plain, {"--calibration", shop.file()}));
    CHECK_THAT(summary.out, contains("calibration of " + made));
}

TEST_CASE("The saved profile in place of the picture's own leads to the same colours") {
    // To the rounding of a profile (tests/calibrate/keep/input_profile.cpp measures it).
    const Shop shop;
    const auto plain = compare_arguments(shop.scene, shop.picture());
    const Json alone = compare_json(plain);
    const Json read = compare_json(with(plain, {"--profile", shop.folder / "shop.icc"}));
    for (const char* side : {"original", "repair"})
        for (std::size_t i = 0; i < 3; ++i)
            CHECK(read[side]["lab"][i].get<double>() ==
                  Approx(alone[side]["lab"][i].get<double>()).margin(0.02));
}

TEST_CASE("Calibrating on the saved table of readings is calibrating on the picture") {
    const Shop shop;
    const CommandResult result = run_tonemend(
        {"calibrate", "--patches", shop.folder / "shop.txt", "--card", "six-step-card", "--json"});
    INFO(result.err);
    REQUIRE(result.status == 0);
    const Json from_table = Json::parse(result.out), from_picture = Json::parse(content_of(shop.file()));
    CHECK(from_table["characterisation"]["model"] == from_picture["characterisation"]["model"]);
    for (std::size_t c = 0; c < 3; ++c)
        for (std::size_t k = 0; k < 6; ++k)
            CHECK(from_table["curves"][c]["points"][k][0].get<double>() ==
                  Approx(from_picture["curves"][c]["points"][k][0].get<double>()).epsilon(1e-9));
}

TEST_CASE(
    "Checks gather in the calibration until the patch is off, and then compare says that it has expired") {
    const Shop shop;
    const std::string before = content_of(shop.file());
    CommandResult result = run_tonemend({"check", shop.file()});
    CHECK(result.status == 0);
    CHECK_THAT(result.out, contains("never checked"));
    result = run_tonemend(shop.check({"--lab", shop.lab()}));
    INFO(result.out << result.err);
    CHECK(result.status == 0);
    CHECK_THAT(result.out, contains("good"));
    result = run_tonemend(shop.check({"--json"}));
    CHECK(result.status == 0);
    const Json json = Json::parse(result.out);
    CHECK(json["schema"] == "tonemend.check/1");
    CHECK(json["state"] == "good");
    CHECK(json["points"] == 2);
    CHECK(json["from_known_de2000"].get<double>() < 0.001);
    const auto comparison =
        with(compare_arguments(shop.scene, shop.picture()), {"--calibration", shop.file()});
    CHECK(codes_in(compare_json(comparison)) ==
          codes_in(compare_json(compare_arguments(shop.scene, shop.picture()))));

    result = run_tonemend(shop.check({"--lab", shop.lab(5), "--restart"}));
    CHECK(result.status == 3);
    CHECK_THAT(result.out, contains("EXPIRED"));
    CHECK(run_tonemend({"check", shop.file()}).status == 3);
    CHECK(codes_in(compare_json(comparison, 3)).front() == "calibration-expired");
    // Wider limits, if somebody wants them, are kept.
    CHECK(run_tonemend({"check", shop.file(), "--warn-at", "9", "--expire-at", "10"}).status == 0);
    CHECK(run_tonemend({"check", shop.file()}).status == 0);
    // All but the chart is as it was calibrated.
    CHECK(without(Json::parse(content_of(shop.file())), {"chart"}) ==
          without(Json::parse(before), {"chart"}));
}

TEST_CASE("A picture that is unfit to calibrate on is said to be, and nothing is saved") {
    const ScratchFolder folder;
    const PracticeScene scene = make_scene(small_picture());
    write_practice(scene, folder / "board.png");
    // Six steps taken for one even grey.
    const CommandResult result =
        run_tonemend({"calibrate", folder / "board.png", "--card", "grey-card", "--card-at",
                      text_of(scene.card->corners), "--save", folder / "shop.json"});
    INFO(result.out << result.err);
    CHECK(result.status == 3);
    CHECK_THAT(result.out, contains("UNFIT") && contains("card-uneven") && contains("nothing was saved"));
    CHECK_FALSE(std::filesystem::exists(folder / "shop.json"));
}

TEST_CASE("calibrate --check does what check does") {
    const Shop shop;
    const CommandResult result =
        run_tonemend({"calibrate", shop.picture(), "--card", "six-step-card", "--check", shop.file(),
                      "--region", text_of(shop.scene.original.region), "--lab", shop.lab()});
    INFO(result.err);
    CHECK(result.status == 0);
    const CommandResult shown = run_tonemend({"calibrate", "--check", shop.file()});
    CHECK(shown.out == run_tonemend({"check", shop.file()}).out);
    CHECK_THAT(shown.out, contains("good"));
    check_refused(run_tonemend({"calibrate", "--check", shop.file(), "--save", shop.folder / "other.json"}),
                  "--check", "leave the other files away");
    check_refused(run_tonemend({"calibrate", shop.picture(), "--region", "1,1,20,20"}), "--region",
                  "--check FILE.json");
}
