#include "calibrate/card/card.h"

#include <cmath>
#include <cstdlib>

#include "card_file.h"
#include "picture/input_error.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

const std::string lab_columns = "SAMPLE_NAME X0 Y0 X1 Y1 LAB_L LAB_A LAB_B";
const std::string name_columns = "SAMPLE_NAME X0 Y0 X1 Y1 ";

struct BadCard {
    const char* what;
    std::string text;
    const char* expected;
};

}  // namespace

TEST_CASE(
    "every card that ships is read, and its neutral steps have the lightness of their nominal reflectance") {
    // CIE 15:2018, 8.2.1: L* = 116 Y^(1/3) − 16 above Y = (6/29)^3. The files print two decimals.
    const auto lightness = [](double Y) { return 116 * std::cbrt(Y) - 16; };
    const auto check = [&](const std::string& name, const std::vector<double>& reflectances) {
        INFO(name);
        const Card card =
            read_card(std::filesystem::path(TONEMEND_SOURCE_DIR) / "calibration" / (name + ".txt"));
        CHECK(card.name == name);
        REQUIRE(card.patches.size() == reflectances.size());
        for (std::size_t i = 0; i < reflectances.size(); ++i) {
            CHECK(std::abs(card.patches[i].lab.L - lightness(reflectances[i])) <= 0.0051);
            CHECK(card.patches[i].neutral());
        }
    };
    check("grey-card", {0.18});
    check("three-step-card", {0.90, 0.18, 0.035});
    check("six-step-card", {0.90, 0.55, 0.34, 0.18, 0.085, 0.035});
}

TEST_CASE("XYZ and reflectance give the Lab that they stand for under D50") {
    const ScratchFolder folder;
    // From the definition (CIE 15:2018, 8.2.1): the white itself is 100, 0, 0.
    const Card xyz = read_card(folder.write("xyz.txt", cgats_text(name_columns + "XYZ_X XYZ_Y XYZ_Z",
                                                                  "white 0 0 0.5 1 96.42 100 82.49\n"
                                                                  "grey 0.5 0 1 1 17.3556 18 14.8482\n")));
    CHECK(xyz.patches[0].lab.L == Approx(100).margin(1e-9));
    CHECK(xyz.patches[0].lab.a == Approx(0).margin(1e-9));
    CHECK(xyz.patches[0].lab.b == Approx(0).margin(1e-9));
    const Card reflectance =
        read_card(folder.write("r.txt", cgats_text(name_columns + "REFLECTANCE", "grey 0 0 1 1 0.18\n")));
    CHECK(reflectance.patches[0].lab.L == Approx(116 * std::cbrt(0.18) - 16).margin(1e-9));
    CHECK(reflectance.patches[0].lab.L == Approx(xyz.patches[1].lab.L).margin(1e-9));
    CHECK(std::abs(reflectance.patches[0].lab.a) < 1e-9);
}

TEST_CASE("spectral columns are read in order of wavelength, whatever their order in the file") {
    const ScratchFolder folder;
    const Card card = read_card(
        folder.write("s.txt", cgats_text(lab_columns + " SPECTRAL_NM_400 SPECTRAL_NM_380 SPECTRAL_NM_420",
                                         "a 0 0 1 1 50 0 0 0.2 0.1 0.3\n")));
    const Spectrum& spectrum = card.patches[0].reflectance;
    CHECK(spectrum.start_nm == 380);
    CHECK(spectrum.step_nm == 20);
    CHECK(spectrum.values == std::vector<double>{0.1, 0.2, 0.3});
}

TEST_CASE("a patch is neutral when a* and b* both lie within 2 of zero") {
    Patch patch;
    patch.lab = {50, 2, -2};
    CHECK(patch.neutral());
    patch.lab = {50, 2.01, 0};
    CHECK_FALSE(patch.neutral());
    patch.lab = {50, 0, -2.01};
    CHECK_FALSE(patch.neutral());
}

TEST_CASE("a card file that cannot be used gets one line that names the file, the fault and the cure") {
    const std::string lab = lab_columns;
    const std::string spectral = lab + " SPECTRAL_NM_400 SPECTRAL_NM_410";
    const BadCard bad[] = {
        {"empty", "", "empty"},
        {"comments only", "# nothing\n", "empty"},
        {"not CGATS", "This is a letter to a friend, not a table\n", "CGATS"},
        {"binary", std::string("\x89PNG\r\n\x1a\n\0\0\0\rIHDR", 16), "CGATS"},
        {"no name", cgats_text("X0 Y0 X1 Y1 LAB_L LAB_A LAB_B", "0 0 1 1 50 0 0\n"), "SAMPLE_NAME"},
        {"no rectangle", cgats_text("SAMPLE_NAME X0 Y0 X1 LAB_L LAB_A LAB_B", "a 0 0 1 50 0 0\n"), "Y1"},
        {"no colour", cgats_text("SAMPLE_NAME X0 Y0 X1 Y1", "a 0 0 1 1\n"), "REFLECTANCE"},
        {"no b", cgats_text("SAMPLE_NAME X0 Y0 X1 Y1 LAB_L LAB_A", "a 0 0 1 1 50 0\n"), "LAB_B"},
        {"a word", cgats_text(lab, "a 0 0 1 1 light 0 0\n"), "not a number"},
        {"decimal comma", cgats_text(lab, "a 0 0 1 1 \"50,5\" 0 0\n"), "with a point"},
        {"NaN", cgats_text(lab, "a 0 0 1 1 nan 0 0\n"), "not a number"},
        {"infinity", cgats_text(lab, "a 0 0 1 1 inf 0 0\n"), "not a number"},
        {"overflow", cgats_text(lab, "a 0 0 1 1 1e999 0 0\n"), "number"},
        {"L* over 100", cgats_text(lab, "a 0 0 1 1 101 0 0\n"), "between 0 and 100"},
        {"L* under 0", cgats_text(lab, "a 0 0 1 1 -1 0 0\n"), "between 0 and 100"},
        {"a* over 150", cgats_text(lab, "a 0 0 1 1 50 151 0\n"), "±150"},
        {"b* under -150", cgats_text(lab, "a 0 0 1 1 50 0 -151\n"), "±150"},
        {"negative XYZ", cgats_text(name_columns + "XYZ_X XYZ_Y XYZ_Z", "a 0 0 1 1 -1 50 40\n"), "0 to 100"},
        {"XYZ of one", cgats_text(name_columns + "XYZ_X XYZ_Y XYZ_Z", "a 0 0 1 1 0.17 0.18 0.15\n"),
         "0 to 100"},
        {"negative reflectance", cgats_text(name_columns + "REFLECTANCE", "a 0 0 1 1 -0.1\n"), "0 to 1"},
        {"percentage", cgats_text(name_columns + "REFLECTANCE", "a 0 0 1 1 18\n"), "0.18"},
        {"off the card", cgats_text(lab, "a 0 0 1.1 1 50 0 0\n"), "off the card"},
        {"left of the card", cgats_text(lab, "a -0.1 0 1 1 50 0 0\n"), "off the card"},
        {"no area", cgats_text(lab, "a 0.5 0 0.5 1 50 0 0\n"), "empty rectangle"},
        {"turned inside out", cgats_text(lab, "a 0 1 1 0 50 0 0\n"), "empty rectangle"},
        {"repeated", cgats_text(lab, "a 0 0 0.4 1 50 0 0\na 0.5 0 1 1 30 0 0\n"), "twice"},
        {"overlapping", cgats_text(lab, "a 0 0 0.6 1 50 0 0\nb 0.5 0 1 1 30 0 0\n"), "overlaps patch 'a'"},
        {"no neutral", cgats_text(lab, "a 0 0 1 1 50 3 0\n"), "neutral"},
        {"no rows", cgats_text(lab, ""), "NUMBER_OF_SETS was 0"},
        {"one wavelength", cgats_text(lab + " SPECTRAL_NM_400", "a 0 0 1 1 50 0 0 0.2\n"), "at least two"},
        {"uneven grid", cgats_text(spectral + " SPECTRAL_NM_430", "a 0 0 1 1 50 0 0 0.2 0.2 0.2\n"),
         "evenly"},
        {"negative spectrum", cgats_text(spectral, "a 0 0 1 1 50 0 0 0.2 -0.2\n"), "0 to 1"},
        {"spectrum in per cent", cgats_text(spectral, "a 0 0 1 1 50 0 0 20 20\n"), "0 to 1"},
    };
    const ScratchFolder folder;
    for (const BadCard& card : bad) {
        INFO(card.what);
        const auto path = folder.write("bad.txt", card.text);
        const std::string error = error_of<InputError>([&] { read_card(path); });
        CAPTURE(error);
        CHECK(error.find(card.expected) != std::string::npos);
        CHECK(error.starts_with(path.string() + ": "));
        CHECK(error.find('\n') == std::string::npos);
        CHECK(error.find_first_of(";") != std::string::npos);
    }
    CHECK(error_of<InputError>([&] { read_card(folder.path() / "absent.txt"); }).find("no such file") !=
          std::string::npos);
    CHECK(error_of<InputError>([&] { read_card(folder.path()); }).find("no such file") != std::string::npos);
}

TEST_CASE("patches may share an edge") {
    const ScratchFolder folder;
    CHECK(
        read_card(folder.write("c.txt", cgats_text(lab_columns, "a 0 0 0.3 1 50 0 0\nb 0.3 0 1 1 30 0 0\n")))
            .patches.size() == 2);
}

TEST_CASE("a card is located by its path, in the user's own folder, then among those that ship") {
    const ScratchFolder folder;
    const auto path = folder.write("own-card.txt", cgats_text(lab_columns, "a 0 0 1 1 50 0 0\n"));
    CHECK(locate_card(path.string()) == path);
    unsetenv("TONEMEND_CALIBRATION_DIR");
    CHECK(locate_card("six-step-card").filename() == "six-step-card.txt");
    CHECK(locate_card("grey-card.txt").filename() == "grey-card.txt");
    setenv("TONEMEND_CALIBRATION_DIR", folder.path().c_str(), 1);
    CHECK(locate_card("own-card") == path);
    const std::string error = error_of<InputError>([] { locate_card("blue-card"); });
    CHECK(error.find("grey-card, own-card, six-step-card, three-step-card") != std::string::npos);
    CHECK_THROWS_AS(locate_card("../" + folder.path().filename().string() + "/absent"), InputError);
    CHECK_THROWS_AS(locate_card(""), InputError);
    unsetenv("TONEMEND_CALIBRATION_DIR");
}
