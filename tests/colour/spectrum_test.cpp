#include "colour/spectrum.h"

#include <cmath>

#include "tests/catch.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

namespace {

template <class Function>
Spectrum tabulate(double start_nm, double end_nm, double step_nm, Function f) {
    Spectrum spectrum{start_nm, step_nm, {}};
    for (double nm = start_nm; nm <= end_nm + 1e-6; nm += step_nm) {
        spectrum.values.push_back(f(nm));
    }
    return spectrum;
}

}  // namespace

TEST_CASE("n values span n − 1 intervals, and both end points are values") {
    const Spectrum spectrum{380, 5, {1, 2, 4, 8}};
    CHECK(spectrum.end_nm() == 395);
    CHECK(spectrum.at(380) == 1);
    CHECK(spectrum.at(395) == 8);
    CHECK(spectrum.at(394) == Approx(7.2).epsilon(1e-15));
    CHECK(spectrum.at(382.5) == 1.5);
    CHECK(Spectrum{500, 10, {3}}.end_nm() == 500);
    CHECK(Spectrum{500, 10, {3}}.at(700) == 3);
}

TEST_CASE("Beyond its ends a spectrum holds its end values") {
    const Spectrum few{400, 10, {0.25, 1, 2}};
    CHECK(few.at(0) == 0.25);
    CHECK(few.at(399.999) == 0.25);
    CHECK(few.at(420.001) == 2);
    const Spectrum many = tabulate(400, 700, 10, [](double nm) { return nm * nm; });
    const Spectrum wider = resample(many, 360, 830, 5);
    CHECK(wider.end_nm() == 830);
    CHECK(wider.values.size() == 95);
    for (double nm = 360; nm <= 400; nm += 5) {
        CHECK(wider.at(nm) == 160000);
    }
    for (double nm = 700; nm <= 830; nm += 5) {
        CHECK(wider.at(nm) == 490000);
    }
}

TEST_CASE("Resampling keeps the given values exactly and includes both ends") {
    const Spectrum spectrum = tabulate(380, 780, 10, [](double nm) { return std::sin(nm / 40) + 2; });
    const Spectrum finer = resample(spectrum, 380, 780, 1);
    REQUIRE(finer.values.size() == 401);
    for (std::size_t i = 0; i < spectrum.values.size(); ++i) {
        CHECK(finer.values[10 * i] == spectrum.values[i]);
    }
    CHECK(resample(finer, 380, 780, 10).values == spectrum.values);
    CHECK(resample(spectrum, 380, 780, 10).values == spectrum.values);
    // (700 − 400)/0.1 is not a whole number in binary; the last value must not get lost.
    CHECK(resample(spectrum, 400, 700, 0.1).values.size() == 3001);
}

TEST_CASE(
    "Sprague's interpolation reproduces quartics exactly away from the ends, and straight lines to the "
    "ends") {
    // Its slopes and curvatures come from quartics through five points: degree four is what it can keep.
    const auto quartic = [](double nm) {
        const double x = (nm - 550) / 100;
        return 1 + x * (2 + x * (-3 + x * (0.5 + x * 4)));
    };
    const Spectrum fine = resample(tabulate(400, 700, 10, quartic), 400, 700, 1);
    double worst = 0;
    for (double nm = 420; nm <= 680; ++nm) {
        worst = std::fmax(worst, std::abs(fine.at(nm) - quartic(nm)));
    }
    check_tight("a quartic on 10 nm resampled to 1 nm, away from the ends", worst, 1e-14);

    const Spectrum line = resample(tabulate(400, 700, 10, [](double nm) { return nm / 100; }), 400, 700, 1);
    worst = 0;
    for (double nm = 400; nm <= 700; ++nm) {
        worst = std::fmax(worst, std::abs(line.at(nm) - nm / 100));
    }
    check_tight("a straight line on 10 nm resampled to 1 nm, up to the ends", worst, 2e-14);
}

TEST_CASE("Between two values Sprague's interpolation gives the published coefficients") {
    // CIE 167:2005, at the middle of an interval: the weights of the six values are 3, −25, 150, 150, −25, 3
    // over 256, those of the interpolating quintic. So a quintic is kept there, though not between.
    for (std::size_t place = 0; place < 6; ++place) {
        Spectrum impulse{400, 10, std::vector<double>(16)};
        impulse.values[5 + place] = 1;
        const double expected[] = {3, -25, 150, 150, -25, 3};
        CHECK(resample(impulse, 475, 475, 1).values[0] == Approx(expected[place] / 256).epsilon(1e-13));
    }
}

TEST_CASE("Fewer than six values are interpolated linearly") {
    const Spectrum spectrum{400, 10, {0, 1, 0, 1, 0}};
    CHECK(resample(spectrum, 400, 440, 5).values == std::vector<double>{0, 0.5, 1, 0.5, 0, 0.5, 1, 0.5, 0});
}
