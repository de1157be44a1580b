// Card files that cannot be used: the columns and their ranges are those of calibration/README.md.
#include <fmt/format.h>

#include <algorithm>

#include "bench.h"
#include "kept_job.h"
#include "practice/write_practice.h"
#include "refusal.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

const std::string columns = "SAMPLE_NAME X0 Y0 X1 Y1 LAB_L LAB_A LAB_B";
const std::string light = "light 0.1 0.1 0.4 0.9 80 0 0\n";

std::string card_text(const std::string& format, const std::vector<std::string>& rows) {
    const auto fields = std::count(format.begin(), format.end(), ' ') + 1;
    std::string text = fmt::format(
        "CGATS.17\nNUMBER_OF_FIELDS {}\nBEGIN_DATA_FORMAT\n{}\nEND_DATA_FORMAT\nNUMBER_OF_SETS "
        "{}\nBEGIN_DATA\n",
        fields, format, rows.size());
    for (const std::string& row : rows) text += row;
    return text + "END_DATA\n";
}

}  // namespace

TEST_CASE("A card file that cannot be used is refused in one line that names it and what to change") {
    const ScratchFolder folder;
    const PracticeScene scene = make_scene(small_picture());
    write_practice(scene, folder / "board.png");
    const std::string card = folder / "our-card.txt";
    const auto arguments =
        with(compare_arguments(scene, folder / "board.png"),
             {"--save-picture", folder / "copy.png", "--job", "table", "--store", folder / "jobs.sqlite"});
    std::vector<std::string> with_card = arguments;
    *(std::find(with_card.begin(), with_card.end(), "--card") + 1) = card;
    const auto check = [&](const std::vector<std::string>& words, const std::string& culprit,
                           const std::string& cure) {
        check_refused(run_tonemend(words), culprit, cure);
        CHECK_FALSE(std::filesystem::exists(folder / "copy.png"));
        CHECK_FALSE(std::filesystem::exists(folder / "jobs.sqlite"));
    };
    check(with_card, "our-card.txt", "six-step-card");  // missing: says which there are

    struct Row {
        std::string content, cure;
    };
    const Row rows[] = {
        {"", "calibration/README.md"},
        {"It is grey, about 18 %.\n", "calibration/README.md"},
        {std::string(3000, '\xff'), "calibration/README.md"},
        {card_text(columns, {}), "calibration/README.md"},
        {card_text("SAMPLE_NAME X0 Y0 X1 LAB_L LAB_A LAB_B", {"light 0.1 0.1 0.4 80 0 0\n"}), "add it"},
        {card_text("SAMPLE_NAME X0 Y0 X1 Y1", {"light 0.1 0.1 0.4 0.9\n"}), "add LAB_L"},
        {card_text("SAMPLE_NAME X0 Y0 X1 Y1 LAB_L LAB_A", {"light 0.1 0.1 0.4 0.9 80 0\n"}), "add it"},
        {card_text("X0 Y0 X1 Y1 LAB_L LAB_A LAB_B", {"0.1 0.1 0.4 0.9 80 0 0\n"}), "add it"},
        {card_text(columns, {"light 0.1 0.1 0.4 0.9 nan 0 0\n"}), "write it like"},
        {card_text(columns, {"light 0.1 0.1 0.4 inf 80 0 0\n"}), "write it like"},
        {card_text(columns, {"light 0.1 0.1 0.4 0.9 80 0,5 0\n"}), "write 85.10 with a point, not a comma"},
        {card_text(columns, {"light 0.1 0.1 0.4 0.9 85,10 0 0\n"}), "write 85.10 with a point, not a comma"},
        {card_text(columns, {"light 0.1 0.1 0.4 0.9 -8 0 0\n"}), "between 0 and 100"},
        {card_text(columns, {"light -0.1 0.1 0.4 0.9 80 0 0\n"}), "0 to 1"},
        {card_text(columns, {"light 0.4 0.1 0.1 0.9 80 0 0\n"}), "must be greater"},
        {card_text("SAMPLE_NAME X0 Y0 X1 Y1 REFLECTANCE", {"light 0.1 0.1 0.4 0.9 -0.18\n"}), "0 to 1"},
        {card_text("SAMPLE_NAME X0 Y0 X1 Y1 REFLECTANCE", {"light 0.1 0.1 0.4 0.9 18\n"}), "0 to 1"},
        {card_text("SAMPLE_NAME X0 Y0 X1 Y1 XYZ_X XYZ_Y XYZ_Z", {"light 0.1 0.1 0.4 0.9 0.17 0.18 0.15\n"}),
         "0 to 100"},
        {card_text(columns, {light, "light 0.5 0.1 0.9 0.9 30 0 0\n"}), "its own SAMPLE_NAME"},
        {card_text(columns, {light, "dark 0.3 0.1 0.9 0.9 30 0 0\n"}), "correct X0"},
        {card_text(columns, {"red 0.1 0.1 0.4 0.9 50 60 40\n"}), "grey or white patch"},
        {card_text(columns, {light, light}).substr(0, 150), "calibration/README.md"},
        {card_text(columns, {light}).substr(0, 9) + card_text(columns, {light}).substr(28),
         "calibration/README.md"},
    };
    for (const Row& row : rows) {
        INFO(row.content.substr(0, 300));
        put_content(card, row.content);
        check(with_card, "our-card.txt", row.cure);
    }
}

TEST_CASE("Files whose names are not UTF-8 are measured all the same, and the JSON stays JSON") {
    const ScratchFolder folder;
    const PracticeScene scene = make_scene(small_picture());
    write_practice(scene, folder /
                              "M\xf6"
                              "bel.png");  // Latin-1
    std::filesystem::copy_file(std::filesystem::path(TONEMEND_SOURCE_DIR) / "calibration/six-step-card.txt",
                               folder /
                                   "Graut\xf6"
                                   "ne.txt");
    auto arguments = compare_arguments(scene, folder /
                                                  "M\xf6"
                                                  "bel.png");
    arguments.back() = folder /
                       "Graut\xf6"
                       "ne.txt";
    const auto json = compare_json(
        with(with(arguments, keeping_in(folder.path())), {"--save-picture", folder / "copy.png"}));
    CHECK(json["light"]["card"] == "Graut\xef\xbf\xbdne");  // U+FFFD, the replacement character
    KeptJob job(folder.path());
    CHECK(job.json(0)["picture"] ==
          "M\xef\xbf\xbd"
          "bel.png");
    CHECK(run_tonemend(arguments).status == 0);
}
