#include "colour/illuminant.h"

#include <lcms2.h>

#include <cmath>

#include "calibrate/model/reference_spectra.h"
#include "colour/integrate.h"
#include "tests/catch.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

namespace {

// Largest difference of two lights, both scaled to 100 at 560 nm, at the wavelengths of `table` up to
// `high_nm`.
double worst_departure(const Spectrum& table, const Spectrum& made, double low_nm, double high_nm) {
    const double scale = 100 / table.at(560);
    double worst = 0;
    for (std::size_t i = 0; i < table.values.size(); ++i) {
        const double nm = table.start_nm + static_cast<double>(i) * table.step_nm;
        if (nm >= low_nm && nm <= high_nm) {
            worst = std::fmax(worst, std::abs(made.at(nm) - scale * table.values[i]));
        }
    }
    return worst;
}

}  // namespace

TEST_CASE("The CIE illuminants have the chromaticities that CIE 15 tabulates") {
    struct Row {
        const char* name;
        double x, y;
        double bound;
    };
    // CIE 15:2004, table T.3 and the table of the F series (from memory). The D series and A are tabulated
    // for the 1 nm observer; here it has 5 nm.
    const Row rows[] = {
        {"CIE-A", 0.44758, 0.40745, 2e-5},   {"CIE-C", 0.31006, 0.31616, 1e-5},
        {"CIE-D50", 0.34567, 0.35851, 4e-5}, {"CIE-D55", 0.33243, 0.34744, 1e-5},
        {"CIE-D65", 0.31272, 0.32903, 3e-5}, {"CIE-E", 1 / 3.0, 1 / 3.0, 1e-5},
        {"CIE-F2", 0.3721, 0.3751, 5e-5},    {"CIE-F7", 0.3129, 0.3292, 6e-5},
        {"CIE-F11", 0.3805, 0.3769, 5e-5},
    };
    const Observer observer = read_observer_1931();
    for (const Row& row : rows) {
        const Chromaticity xy = to_xy(perfect_diffuser(white_point(read_illuminant(row.name), observer)));
        check_tight(row.name, std::fmax(std::abs(xy.x - row.x), std::abs(xy.y - row.y)), row.bound);
    }
}

TEST_CASE("The CIE illuminants have the white points of ASTM E308") {
    struct Row {
        const char* name;
        double X, Z;
        double bound;
    };
    // ASTM E308, table 5, 2° observer (from memory): 1 nm sums for A and the D series.
    const Row rows[] = {
        {"CIE-A", 1.09850, 0.35585, 1e-5},   {"CIE-D50", 0.96422, 0.82521, 3e-4},
        {"CIE-D55", 0.95682, 0.92149, 2e-4}, {"CIE-D65", 0.95047, 1.08883, 2e-4},
        {"CIE-F2", 0.99186, 0.67393, 2e-5},  {"CIE-F7", 0.95041, 1.08747, 3e-5},
        {"CIE-F11", 1.00962, 0.64350, 2e-5},
    };
    const Observer observer = read_observer_1931();
    for (const Row& row : rows) {
        const WhitePoint white = white_point(read_illuminant(row.name), observer);
        check_tight(row.name, std::fmax(std::abs(white.X - row.X), std::abs(white.Z - row.Z)), row.bound);
    }
}

TEST_CASE("u', v' and u, v of D65 are the published ones") {
    // CIE 15:2004, table T.3: u' 0.1978, v' 0.4683; CIE 1960 v is two thirds of v'.
    const XYZ d65 = perfect_diffuser(white_point(Chromaticity{0.31272, 0.32903}));
    CHECK(to_ucs1976(d65).u == Approx(0.1978).margin(5e-5));
    CHECK(to_ucs1976(d65).v == Approx(0.4683).margin(5e-5));
    CHECK(to_ucs1960(d65).u == to_ucs1976(d65).u);
    CHECK(to_ucs1960(d65).v == Approx(to_ucs1976(d65).v * 2 / 3).epsilon(1e-15));
}

TEST_CASE("CIE illuminant A is the Planckian radiator of 2848 K on the old scale") {
    const Spectrum made = planckian_radiator(2848 * 1.4388 / 1.4350, 300, 830, 1);
    check_tight("illuminant A", worst_departure(read_illuminant("CIE-A"), made, 300, 830), 1e-3);
}

TEST_CASE("A Planckian radiator peaks where Wien's displacement law says, and is 100 at 560 nm") {
    for (const double kelvin : {4000.0, 5000.0, 6500.0}) {
        const Spectrum light = planckian_radiator(kelvin, 300, 830, 0.5);
        double peak = 300;
        for (double nm = 300; nm <= 830; nm += 0.5) {
            peak = light.at(nm) > light.at(peak) ? nm : peak;
        }
        // b = c2 / 4.965114 (Wien), with c2 = 1.4388e-2 m·K.
        CHECK(peak == Approx(1.4388e7 / 4.965114 / kelvin).margin(0.3));
        CHECK(light.at(560) == Approx(100).epsilon(1e-14));
    }
}

TEST_CASE("Daylight chromaticity agrees with Little CMS from 4000 to 25 000 K") {
    double worst = 0;
    for (double kelvin = 4000; kelvin <= 25000; kelvin += 100) {
        cmsCIExyY expected{};
        REQUIRE(cmsWhitePointFromTemp(&expected, kelvin));
        const Chromaticity xy = daylight_chromaticity(kelvin);
        worst = std::fmax(worst, std::hypot(xy.x - expected.x, xy.y - expected.y));
    }
    CHECK(worst <= 1e-15);
}

TEST_CASE("Daylight phases rebuild the CIE's tables") {
    const DaylightComponents components = read_daylight_components();
    const auto worst = [&](const char* name, double nominal_kelvin, double low_nm, double high_nm) {
        return worst_departure(read_illuminant(name),
                               tonemend::daylight(nominal_kelvin * 1.4388 / 1.4380, components), low_nm,
                               high_nm);
    };
    // Of 100 at 560 nm. The file for D65 has six digits, that for D55 two decimals, and that for D50 one
    // decimal, some of them a whole step off the CIE's table (380 nm: 24.488).
    check_tight("D65", worst("CIE-D65", 6500, 300, 830), 1e-3);
    check_tight("D55", worst("CIE-D55", 5500, 380, 780), 6e-3);
    check_tight("D50", worst("CIE-D50", 5000, 380, 780), 0.1);
    CHECK(tonemend::daylight(5000 * 1.4388 / 1.4380, components).at(380) == Approx(24.488).margin(5.1e-4));
}
