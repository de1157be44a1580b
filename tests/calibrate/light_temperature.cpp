#include "calibrate/preflight/light_temperature.h"

#include <cmath>

#include "calibrate/card/find_card.h"
#include "picture/read_picture.h"
#include "practice/render.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

std::optional<double> raw_temperature(const std::string& lamp) {
    PracticeOptions options;
    options.width = 800, options.height = 600;
    options.lamp = lamp;
    const PracticeScene scene = make_scene(options);
    const ScratchFolder folder;
    write_dng(to_mosaic(scene, take_picture(scene)), folder / "a.dng");
    const Frame frame = read_picture(folder / "a.dng");
    const auto found = find_card(frame);
    REQUIRE(found);
    return temperature_of_light(frame, calibrate_on_card(frame, scene.card->card, *found));
}

}  // namespace

TEST_CASE("A raw picture tells the temperature of its light to 3 %") {
    // CIE 15:2018: illuminant A is 2856 K, D50 5003 K, D65 6504 K.
    CHECK(std::abs(raw_temperature("CIE-A").value_or(0) / 2856 - 1) < 0.03);
    CHECK(std::abs(raw_temperature("CIE-D50").value_or(0) / 5003 - 1) < 0.03);
    CHECK(std::abs(raw_temperature("CIE-D65").value_or(0) / 6504 - 1) < 0.03);
}

TEST_CASE("Light under 4500 K is warm, whoever stated it") {
    const auto warning = warn_of_temperature(3000);
    REQUIRE(warning);
    CHECK(warning->code == "light-warm");
    CHECK(warning->text.find("3000 K") != std::string::npos);
    CHECK_FALSE(warn_of_temperature(4500));
    CHECK_FALSE(warn_of_temperature(6500));
}
