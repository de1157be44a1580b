// Patch readings as a CGATS table and back.
#include "calibrate/keep/patch_table.h"

#include <cmath>

#include "kept_sample.h"
#include "picture/input_error.h"
#include "picture/standard_encodings.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

CgatsTable through_file(const CgatsTable& table) {
    const ScratchFolder folder;
    write_cgats(table, folder / "readings.txt");
    return read_cgats(folder / "readings.txt");
}

std::string refusal_of(const CgatsTable& table, const Card& card) {
    try {
        (void)tabled_readings(table, card, srgb_encoding(Provenance::stated));
    } catch (const InputError& error) {
        return error.what();
    }
    return "no refusal";
}

}  // namespace

TEST_CASE("Readings come back from their table as near as its ten digits") {
    CalibratedScene scene;
    scene.calibration.patches[2].light = {0.9123456789, 1.05, 1};
    const CgatsTable table = through_file(patch_table(scene.frame, scene.calibration));
    const TabledReadings back =
        tabled_readings(table, scene.scene.card->card, srgb_encoding(Provenance::assumed));
    REQUIRE(back.patches.size() == scene.calibration.patches.size());
    for (std::size_t i = 0; i < back.patches.size(); ++i) {
        const PatchReading &was = scene.calibration.patches[i], &is = back.patches[i];
        CHECK(is.patch.name == was.patch.name);
        CHECK(is.pixels == was.pixels);
        CHECK(is.clipped == was.clipped);
        for (std::size_t c = 0; c < 3; ++c) {
            CHECK(is.mean[c] == Approx(was.mean[c]).epsilon(5e-10));
            CHECK(is.spread[c] == Approx(was.spread[c]).epsilon(5e-10));
            CHECK(is.light[c] == Approx(was.light[c]).epsilon(5e-10));
            CHECK(is.mean_u[c] == Approx(was.mean_u[c]).epsilon(5e-10));
        }
    }
    const Calibration again = calibrate_on_readings(back.frame, "six-step-card", back.patches);
    scene.calibration = calibrate_on_readings(scene.frame, "six-step-card", scene.calibration.patches);
    for (std::size_t c = 0; c < 3; ++c)
        CHECK(again.curves[c](0.1) == Approx(scene.calibration.curves[c](0.1)).epsilon(1e-8));
    CHECK(again.characterisation.model.matrix().m[0][0] ==
          Approx(scene.calibration.characterisation.model.matrix().m[0][0]).epsilon(1e-12));
}

TEST_CASE("The colours in the table are those of its card's steps, and the residual is their distance") {
    // The curves pass through every step, so what is read is what the card says
    // (calibrate/tone/tone_curve.h).
    const CalibratedScene scene;
    const CgatsTable table = patch_table(scene.frame, scene.calibration);
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        CHECK(table.number(row, table.column("LAB_L")) ==
              Approx(scene.calibration.patches[row].patch.lab.L).margin(0.002));
        CHECK(table.number(row, table.column("DE_2000")) < 0.005);
    }
}

TEST_CASE("RGB without a word on light are codes, decoded as the picture's would be") {
    // IEC 61966-2-1: code 118 of 255 is 0.1812 of white.
    CgatsTable table;
    table.source = "readings.txt";
    table.columns = {"SAMPLE_NAME", "RGB_R", "RGB_G", "RGB_B"};
    table.rows = {{"grey", "118", "118", "118"}};
    Card card;
    card.name = "grey card";
    card.patches = {{"grey", 0, 0, 1, 1, {49.5, 0, 0}, {}}};
    const TabledReadings back = tabled_readings(table, card, srgb_encoding(Provenance::assumed));
    CHECK(back.patches[0].mean[1] == Approx(0.18116).margin(1e-5));
    // The slope there is 0.8398, so one code is 0.003293 of white; its rounding has a standard deviation of
    // 1/√12 of it.
    CHECK(back.patches[0].mean_u[1] == Approx(0.003293 / std::sqrt(12.0)).epsilon(1e-3));
    CHECK(back.frame.encoding.assumed);
}

TEST_CASE("A table that does not fit the card is refused with what does not") {
    const CalibratedScene scene;
    const Card& card = scene.scene.card->card;
    const CgatsTable sound = patch_table(scene.frame, scene.calibration);
    CgatsTable table = sound;
    table.rows[0][0] = "somebody";
    CHECK_THAT(refusal_of(table, card), contains("'somebody' is no patch of the card"));
    table = sound;
    table.rows.pop_back();
    CHECK_THAT(refusal_of(table, card), contains("has no row"));
    table = sound;
    table.rows[1][0] = table.rows[0][0];
    CHECK_THAT(refusal_of(table, card), contains("is there twice"));
    table = sound;
    table.rows[1][1] = "1e9";
    CHECK_THAT(refusal_of(table, card), contains("out of range in RGB_R"));
    table = sound;
    table.rows[1][table.column("LIGHT_G")] = "0";
    CHECK_THAT(refusal_of(table, card), contains("LIGHT_… out of range"));
    table = sound;
    for (auto& [key, value] : table.keywords)
        if (key == "RGB_TO_XYZ") value = "1 2 3";
    CHECK_THAT(refusal_of(table, card), contains("RGB_TO_XYZ is not nine numbers"));
    table = sound;
    table.columns[1] = "RED";
    CHECK_THAT(refusal_of(table, card), contains("the column RGB_R is missing"));
}
