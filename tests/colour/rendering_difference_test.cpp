#include "colour/rendering_difference.h"

#include <cmath>

#include "calibrate/model/reference_spectra.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

double between(const Spectrum& first, const Spectrum& second) {
    return rendering_difference(first, second, read_test_colour_samples(), read_observer_1931());
}

Spectrum even(double value) {
    return {380, 5, std::vector<double>(81, value)};
}

}  // namespace

TEST_CASE("Lights of one spectrum render alike, however bright") {
    Spectrum brighter = read_illuminant("CIE-F11");
    for (double& value : brighter.values) value *= 7;
    CHECK(between(read_illuminant("CIE-F11"), brighter) < 1e-9);
}

TEST_CASE("How unlike two lights are does not depend on which is named first") {
    // By the definition: CIEDE2000 is symmetric (Sharma, Wu, Dalal 2005).
    const Spectrum a = read_illuminant("CIE-A"), f11 = read_illuminant("CIE-F11");
    CHECK(between(a, f11) == Approx(between(f11, a)).epsilon(1e-12));
}

TEST_CASE("A grey looks alike in every light, since adaptation takes white to white") {
    CHECK(rendering_difference(read_illuminant("CIE-A"), read_illuminant("CIE-D65"), {even(0.3)},
                               read_observer_1931()) < 1e-9);
}

TEST_CASE("Lights rank as the trade has it: neighbours among daylights least, then a bulb against daylight") {
    // Common practice, no source: light booths pair daylight with incandescent and with triband tubes.
    const Spectrum d65 = read_illuminant("CIE-D65");
    const double neighbours = between(read_illuminant("CIE-D55"), d65);
    CHECK(neighbours < 1);
    CHECK(between(read_illuminant("CIE-D50"), d65) > neighbours);
    CHECK(between(read_illuminant("CIE-A"), d65) > 2 * between(read_illuminant("CIE-D50"), d65));
    CHECK(between(read_illuminant("CIE-F11"), d65) > between(read_illuminant("CIE-D50"), d65));
}
