#include "calibrate/model/stated_light.h"

#include <cmath>

#include "calibrate/model/reference_spectra.h"
#include "colour/cct.h"
#include "colour/integrate.h"
#include "picture/input_error.h"
#include "tests/catch.h"

using namespace tonemend;

TEST_CASE("A stated light has the colour temperature that its spectrum has") {
    // Second opinion: the spectrum's own correlated temperature (colour/cct.h, checked against CIE 15).
    for (const char* text : {"2700", "2700K", "5500", "planckian:2856", "daylight:6504", "led:2700",
                             "led:5000", "CIE-A", "CIE-D65", "CIE-F11"}) {
        const StatedLight light = parse_light(text);
        const auto found = correlated_colour_temperature(white_point(light.power, read_observer_1931()));
        REQUIRE(found);
        INFO(text);
        CHECK(std::abs(found->kelvin - light.kelvin) < 5);
    }
}

TEST_CASE("The CIE's illuminants are of the family that the CIE describes, other names keep it open") {
    // CIE 15: A is a tungsten lamp, D are phases of daylight, F are fluorescent lamps.
    CHECK(parse_light("CIE-A").family == LampFamily::thermal);
    CHECK(parse_light("CIE-D50").family == LampFamily::thermal);
    CHECK(parse_light("led:3000").family == LampFamily::led);
    CHECK_FALSE(parse_light("CIE-F11").family);
    CHECK_FALSE(parse_light("3000").family);
}

TEST_CASE("A light that cannot be read is refused in a line that shows how") {
    for (const char* text : {"", "warm", "1500", "20000", "led:2000", "led:", "daylight:3000", "CIE-X",
                             "planckian:nan", "neon:3000", "2700 K"})
        CHECK_THROWS_AS(parse_light(text), InputError);
}
