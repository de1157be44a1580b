// --flat, as a user gives it. The bounds are the practice bench's own truth; the contract is this program's.
#include <algorithm>
#include <cmath>

#include "picture/write_picture.h"
#include "practice/render.h"
#include "tests/catch.h"
#include "tests/cli/bench.h"
#include "tests/cli/refusal.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

PracticeOptions uneven() {
    PracticeOptions options = small_picture();
    options.fall_off_percent = 15, options.fall_off_direction = 10;
    return options;
}

PracticeOptions sheet_of(PracticeOptions options) {
    options.subject = PracticeSubject::grey_sheet;
    return options;
}

PracticeOptions card_at(PracticeOptions options, const PixelRect& region) {
    options.card_x = std::clamp((region.x + region.width / 2.0) / options.width, 0.27, 0.73);
    options.card_y = 0.7, options.rotation = 0;
    return options;
}

std::string write(const ScratchFolder& folder, const char* name, const PracticeOptions& options) {
    const auto path = folder / name;
    write_picture(render(make_scene(options)), path);
    return path.string();
}

bool warned(const nlohmann::json& json, const char* code) {
    for (const auto& warning : json["warnings"])
        if (warning["code"] == code) return true;
    return false;
}

}  // namespace

TEST_CASE(
    "Evening out by --flat with a grey sheet, or with the card at both places, makes uneven light harmless "
    "and says so") {
    const ScratchFolder folder;
    const PracticeScene scene = make_scene(uneven());
    const double known = truth(scene).de2000;
    const auto plain = compare_arguments(scene, write(folder, "work.tif", uneven()));
    const std::string sheet = write(folder, "sheet.tif", sheet_of(uneven()));
    const std::string left = write(folder, "left.tif", card_at(uneven(), scene.original.region));
    const std::string right = write(folder, "right.tif", card_at(uneven(), scene.repair.region));
    const auto before = compare_json(plain);
    CHECK(before["light"]["flat_field"].is_null());
    CHECK(warned(before, "light-uneven"));
    for (const auto& flat : {std::vector<std::string>{"--flat", sheet},
                             std::vector<std::string>{"--flat", left, "--flat", right}}) {
        const auto after = compare_json(with(plain, flat));
        CHECK(std::abs(after["difference"]["de2000"].get<double>() - known) < 0.15);
        CHECK(after["difference"]["de2000_u95"].get<double>() <
              0.6 * before["difference"]["de2000_u95"].get<double>());
        CHECK_FALSE(warned(after, "light-uneven"));
        CHECK_FALSE(warned(after, "lamp-moved"));
        CHECK_THAT(after["light"]["flat_field"].get<std::string>(), contains("evened out by"));
    }
    const CommandResult words = run_tonemend(with(plain, {"--flat", sheet}));
    CHECK(words.status == 0);
    CHECK_THAT(words.out, contains("light evened out by an even sheet"));
}

TEST_CASE("A picture for --flat that cannot serve is refused in one line with its cure") {
    const ScratchFolder folder;
    const PracticeScene scene = make_scene(uneven());
    const auto plain = compare_arguments(scene, write(folder, "work.tif", uneven()));
    const auto refused = [&](const std::vector<std::string>& flat, const std::string& culprit,
                             const std::string& cure) {
        check_refused(run_tonemend(with(plain, flat)), culprit, cure);
    };
    refused({"--flat", folder / "none.tif"}, "none.tif", "");
    PracticeOptions wrong = sheet_of(uneven());
    wrong.width = 800, wrong.height = 600;
    refused({"--flat", write(folder, "small.tif", wrong)}, "small.tif", "at one size and not cropped");
    wrong = sheet_of(uneven());
    wrong.exposure = 2;
    wrong.fall_off_percent = 60;
    refused({"--flat", write(folder, "bright.tif", wrong)}, "bright.tif", "");
    wrong.exposure = 0.8, wrong.fall_off_percent = 45;
    refused({"--flat", write(folder, "steep.tif", wrong)}, "steep.tif",
            "no more than 30 % can be evened out");
    PracticeOptions wood = uneven();
    wood.card_mount = CardMount::absent;
    refused({"--flat", write(folder, "wood.tif", wood)}, "wood.tif", "take the sheet's picture again");
    const std::string sheet = write(folder, "sheet.tif", sheet_of(uneven()));
    refused({"--flat", sheet, "--flat", sheet}, "sheet.tif", "give one --flat picture of an even grey sheet");
    refused({"--flat", sheet, "--flat", folder / "work.tif"}, "sheet.tif",
            "only pictures with the whole framed card");
}

TEST_CASE("practice --flat-sheet makes the sheet that compare --flat takes") {
    const ScratchFolder folder;
    const std::vector<std::string> scene{"--seed",   "3",   "--width",    "900",
                                         "--height", "675", "--fall-off", "12"};
    const std::string work = folder / "work.png", sheet = folder / "sheet.png";
    REQUIRE(run_tonemend(with({"practice", work}, scene)).status == 0);
    const CommandResult made = run_tonemend(with(with({"practice", sheet, "--flat-sheet"}, scene), {}));
    REQUIRE(made.status == 0);
    CHECK_THAT(made.out, contains("for --flat"));
    PracticeOptions options = small_picture();
    options.fall_off_percent = 12;
    const PracticeScene known = make_scene(options);
    const auto json = compare_json(with(compare_arguments(known, work), {"--flat", sheet}));
    CHECK(std::abs(json["difference"]["de2000"].get<double>() - truth(known).de2000) < 0.15);
}
