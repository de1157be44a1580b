#include "practice/lamp.h"

#include <cmath>

#include "calibrate/model/reference_spectra.h"
#include "colour/chromaticity.h"
#include "colour/difference.h"
#include "colour/integrate.h"
#include "picture/input_error.h"
#include "practice/recipe.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

namespace {

Chromaticity xy_of(const std::string& lamp) {
    return to_xy(perfect_diffuser(make_lamp(lamp).white));
}

}  // namespace

// CIE 15:2018, table of chromaticities of the CIE illuminants for the 2° observer.
TEST_CASE("CIE lamps have their published chromaticities on the bench's grid") {
    struct Row {
        const char* lamp;
        double x, y;
    };
    double worst = 0;
    for (const Row& row :
         {Row{"CIE-A", 0.44758, 0.40745}, Row{"CIE-D50", 0.34567, 0.35851}, Row{"CIE-D65", 0.31272, 0.32903},
          Row{"CIE-F2", 0.3721, 0.3751}, Row{"CIE-F11", 0.3805, 0.3769}}) {
        const Chromaticity xy = xy_of(row.lamp);
        INFO(row.lamp);
        worst = std::max({worst, std::abs(xy.x - row.x), std::abs(xy.y - row.y)});
    }
    check_tight("chromaticity of CIE lamps", worst, 6e-5);
}

TEST_CASE("A lamp has the colour temperature that its name asks for") {
    double worst = 0;
    for (const double kelvin : {2700.0, 3500.0, 4000.0, 5000.0, 6500.0}) {
        const auto led = make_lamp("led:" + std::to_string(static_cast<int>(kelvin))).colour_temperature;
        const auto planckian =
            make_lamp("planckian:" + std::to_string(static_cast<int>(kelvin))).colour_temperature;
        REQUIRE(led);
        REQUIRE(planckian);
        worst = std::max({worst, std::abs(*led - kelvin), std::abs(*planckian - kelvin)});
    }
    check_tight("colour temperature in K", worst, 2.0);
    CHECK(make_lamp("daylight:6504").colour_temperature.value() == Approx(6504).margin(3));
}

TEST_CASE("Two lamps mix by their luminance") {
    const Lamp a = make_lamp("CIE-A");
    const Lamp d = make_lamp("CIE-D65");
    const Lamp mixed = make_lamp("CIE-D65", "CIE-A", 0.25);
    CHECK(mixed.white.X == Approx(0.75 * d.white.X + 0.25 * a.white.X).epsilon(1e-12));
    CHECK(mixed.white.Z == Approx(0.75 * d.white.Z + 0.25 * a.white.Z).epsilon(1e-12));
    CHECK(make_lamp("CIE-D65", "CIE-A", 1).white.X == Approx(a.white.X).epsilon(1e-12));
}

// The reference: integration on the finest grid of the CIE tables, adapted by hand.
TEST_CASE("The bench's 5 nm grid gives the colour that direct integration gives") {
    const Observer observer = read_observer_1931();
    double worst = 0;
    for (const char* name : {"CIE-D65", "CIE-A", "CIE-F2"}) {
        const Spectrum power = read_illuminant(name);
        const WhitePoint white = white_point(power, observer);
        const Lamp lamp = make_lamp(name);
        for (const WoodKind& wood : wood_kinds()) {
            const Bands r = stained_reflectance(wood, {}, 0.5);
            const XYZ direct = integrate(to_spectrum(r), power, observer);
            const Lab reference = to_lab(transform(bradford(white, d50_icc), direct), d50_icc);
            worst = std::max(worst, ciede2000(reference, lamp.lab(r)).value);
        }
    }
    check_tight("5 nm against the CIE tables' own grid, dE2000", worst, 0.005);
}

TEST_CASE("A white diffuser is L* 100 and neutral under every lamp") {
    Bands white;
    white.fill(1);
    for (const char* name : {"CIE-D65", "CIE-A", "led:3000", "planckian:2200"}) {
        const Lab lab = make_lamp(name).lab(white);
        CHECK(lab.L == Approx(100).epsilon(1e-12));
        CHECK(std::abs(lab.a) < 1e-10);
        CHECK(std::abs(lab.b) < 1e-10);
    }
}

TEST_CASE("A lamp that does not exist is named") {
    CHECK_THROWS_AS(make_lamp("CIE-D66"), InputError);
    CHECK_THROWS_AS(make_lamp("candle:1800"), InputError);
    CHECK_THROWS_AS(make_lamp("led:nan"), InputError);
    CHECK_THROWS_AS(make_lamp("led:400"), InputError);
    CHECK_THROWS_AS(make_lamp("planckian:2700K"), InputError);
    CHECK_THROWS_AS(make_lamp("CIE-D65", "CIE-A", 1.5), InputError);
}
