#include <cmath>
#include <fstream>

#include "calibrate/card/homography.h"
#include "colour/difference.h"
#include "picture/input_error.h"
#include "practice/card_lay.h"
#include "practice/card_paint.h"
#include "practice/card_place.h"
#include "practice/light_map.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

TEST_CASE("A patch is painted so that its colour under D50 is the card's nominal value") {
    const Lamp d50 = make_lamp("CIE-D50");
    double worst = 0;
    for (const Lab& lab : {Lab{96, 0, 0}, Lab{49.5, 0, 0}, Lab{5, 0.5, -0.5}, Lab{50, 1.5, -1},
                           Lab{40, 18, 25}, Lab{60, -25, 20}}) {
        const Bands paint = smooth_reflectance(lab);
        worst = std::max(worst, delta_e_76(d50.lab(paint), lab));
        for (const double value : paint) {
            CHECK(value > 0);
            CHECK(value < 1);
        }
    }
    check_tight("painted against nominal, dE76", worst, 1e-9);
    const Bands grey = smooth_reflectance({49.5, 0, 0});
    // The ICC's D50 is rounded to four decimals, so an exact neutral is flat to that.
    CHECK(*std::max_element(grey.begin(), grey.end()) - *std::min_element(grey.begin(), grey.end()) < 0.002);
}

TEST_CASE("A colour that no smooth paint has is refused") {
    CHECK_THROWS_AS(smooth_reflectance({30, 100, -120}), InputError);
}

TEST_CASE("A patch with its own spectrum keeps it") {
    Patch patch;
    patch.lab = {50, 0, 0};
    patch.reflectance = {380, 10, std::vector<double>(41, 0.25)};
    patch.reflectance.values[0] = 0.1;
    const std::vector<Bands> paints = paint_card({"card", {patch}});
    CHECK(paints[0][0] == 0.1);
    CHECK(paints[0][1] == Approx(0.175).epsilon(1e-14));
    CHECK(paints[0][80] == 0.25);
}

TEST_CASE("A sheet fills the room it is given in every pose") {
    const PixelRect area{100, 50, 800, 400};
    for (int turn = 0; turn < 360; turn += 30)
        for (const double tilt : {0.0, 20.0, 45.0}) {
            const Quad quad = place_sheet(120, 90, {static_cast<double>(turn), tilt, 70}, area, 1, 0.5, 0.5);
            double left = 1e9, right = 0, top = 1e9, bottom = 0;
            for (const Point& p : quad) {
                left = std::min(left, p.x);
                right = std::max(right, p.x);
                top = std::min(top, p.y);
                bottom = std::max(bottom, p.y);
            }
            CHECK(left > 100 - 1e-9);
            CHECK(right < 900 + 1e-9);
            CHECK(top > 50 - 1e-9);
            CHECK(bottom < 450 + 1e-9);
            CHECK(std::max((right - left) / 800, (bottom - top) / 400) == Approx(1).epsilon(1e-12));
        }
    // Straight on and untilted it is a rectangle of its own shape, its first corner at the top left.
    const Quad flat = place_sheet(120, 90, {}, area, 1, 0, 0);
    CHECK(flat[0].x == Approx(100));
    CHECK(flat[2].x - flat[0].x == Approx(400 * 120 / 90.0));
    // A quarter turn clockwise brings its top-left corner to the top right.
    const Quad turned = place_sheet(120, 90, {90, 0, 0}, area, 1, 0, 0);
    CHECK(turned[0].x > turned[2].x);
    CHECK(turned[0].y < turned[2].y);
}

TEST_CASE("Each patch of the card is where the truth says and as bright as its paint") {
    PracticeOptions options = accuracy_study(3);
    options.rotation = 200;
    options.tilt = 25;
    const PracticeScene scene = make_scene(options);
    const RawPicture light = light_map(scene);
    const Matrix3 to_picture = unit_square_to_quad(scene.card->corners);
    for (std::size_t i = 0; i < scene.card->card.patches.size(); ++i) {
        const Patch& patch = scene.card->card.patches[i];
        const Point at = map_point(to_picture, {(patch.x0 + patch.x1) / 2, (patch.y0 + patch.y1) / 2});
        const Vector3 raw = scene.view.raw(scene.card->paints[i]);
        const float* pixel = light.row(static_cast<int>(at.y)) + 3 * static_cast<int>(at.x);
        INFO(patch.name);
        for (std::size_t c = 0; c < 3; ++c) {
            const double veil = scene.black_level * scene.view.white[c];
            CHECK(static_cast<double>(pixel[c]) == Approx(scene.exposure * (raw[c] + veil)).epsilon(1e-5));
        }
    }
}
