#include "colour/rendering_index.h"

#include <cmath>

#include "calibrate/model/reference_spectra.h"
#include "tests/catch.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

TEST_CASE("General colour rendering indices of the CIE's fluorescent lamps are the published whole numbers") {
    // CIE 15:2004, the tables of the F series (from memory).
    const int published[] = {76, 64, 57, 51, 72, 59, 90, 95, 90, 81, 83, 83};
    const auto samples = read_test_colour_samples();
    const auto components = read_daylight_components();
    const Observer observer = read_observer_1931();
    double worst = 0;
    for (int lamp = 1; lamp <= 12; ++lamp) {
        const auto index =
            rendering_index(read_illuminant("CIE-F" + std::to_string(lamp)), samples, components, observer);
        REQUIRE(index);
        REQUIRE(index->special.size() == 14);
        std::printf("  F%d: Ra %.2f (published %d)\n", lamp, index->Ra, published[lamp - 1]);
        CHECK(std::lround(index->Ra) == published[lamp - 1]);
        worst = std::fmax(worst, std::abs(index->Ra - published[lamp - 1]));
    }
    check_tight("Ra of F1 to F12 (half the last digit)", worst, 0.5);
}

TEST_CASE("Special colour rendering index 9 of the warm white lamp F4 is the published −111") {
    // CIE 13.3-1995: F4 is the lamp that the scale was fixed by, Ra 51; R9 from CIE 15's table (from memory).
    const auto index = rendering_index(read_illuminant("CIE-F4"), read_test_colour_samples(),
                                       read_daylight_components(), read_observer_1931());
    REQUIRE(index);
    CHECK(std::lround(index->special[8]) == -111);
}

TEST_CASE("A Planckian radiator and a daylight phase render as their own references do") {
    const auto samples = read_test_colour_samples();
    const auto components = read_daylight_components();
    const Observer observer = read_observer_1931();
    for (const double kelvin : {2000.0, 2856.0, 4900.0}) {
        const auto index =
            rendering_index(planckian_radiator(kelvin, 380, 780, 5), samples, components, observer);
        REQUIRE(index);
        CHECK(index->kelvin == Approx(kelvin).margin(1));
        CHECK(index->Ra > 99.995);
    }
    for (const double kelvin : {5100.0, 6504.0, 9000.0}) {
        const auto index =
            rendering_index(tonemend::daylight(kelvin, components), samples, components, observer);
        REQUIRE(index);
        CHECK(index->kelvin == Approx(kelvin).margin(5));
        CHECK(index->Ra > 99.98);
    }
}

TEST_CASE("A lamp without a colour temperature has no rendering index") {
    Spectrum green{380, 5, std::vector<double>(81)};
    green.values[30] = 1;
    CHECK_FALSE(
        rendering_index(green, read_test_colour_samples(), read_daylight_components(), read_observer_1931()));
}
