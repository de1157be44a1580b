#include "colour/integrate.h"

#include <cmath>

#include "calibrate/model/reference_spectra.h"
#include "colour/illuminant.h"
#include "tests/catch.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

namespace {

double distance(const XYZ& a, const XYZ& b) {
    return std::hypot(a.X - b.X, a.Y - b.Y, a.Z - b.Z);
}

// A smooth reflectance like that of a brown wood: a sigmoid from 5 % in the blue to 45 % in the red.
double wood(double nm) {
    return 0.05 + 0.4 / (1 + std::exp(-(nm - 590) / 40));
}

Spectrum tabulate_wood(double start_nm, double end_nm, double step_nm) {
    Spectrum spectrum{start_nm, step_nm, {}};
    for (double nm = start_nm; nm <= end_nm + 1e-6; nm += step_nm) {
        spectrum.values.push_back(wood(nm));
    }
    return spectrum;
}

}  // namespace

TEST_CASE("The perfect diffuser has Y 1 under every light, on whatever grid it is given") {
    const Observer observer = read_observer_1931();
    for (const char* name : {"CIE-A", "CIE-D65", "CIE-F2", "CIE-F11"}) {
        const Weights weights = weigh(read_illuminant(name), observer);
        const WhitePoint white = white_point(weights);
        for (const Spectrum& diffuser :
             {Spectrum{380, 5, std::vector<double>(81, 1.0)}, Spectrum{400, 20, std::vector<double>(16, 1.0)},
              Spectrum{550, 10, {1}}}) {
            const XYZ xyz = integrate(diffuser, weights);
            CHECK(distance(xyz, {white.X, 1, white.Z}) < 3e-15);
        }
    }
}

TEST_CASE("The sum is the CIE's: on 5 nm tables it is Σ Sβx̄ over Σ Sȳ, written out") {
    const Observer observer = read_observer_1931();
    const Spectrum lamp = read_illuminant("CIE-F2");
    const Spectrum beta = read_test_colour_samples()[0];
    XYZ sum;
    double k = 0;
    for (double nm = 380; nm <= 780; nm += 5) {
        const double power = lamp.at(nm);
        sum.X += power * beta.at(nm) * observer.x.at(nm);
        sum.Y += power * beta.at(nm) * observer.y.at(nm);
        sum.Z += power * beta.at(nm) * observer.z.at(nm);
        k += power * observer.y.at(nm);
    }
    const XYZ xyz = integrate(beta, lamp, observer);
    CHECK(distance(xyz, {sum.X / k, sum.Y / k, sum.Z / k}) < 1e-15);
}

TEST_CASE("The scale of the illuminant does not matter") {
    const Observer observer = read_observer_1931();
    Spectrum lamp = read_illuminant("CIE-F11");
    const XYZ before = integrate(tabulate_wood(380, 780, 5), lamp, observer);
    for (double& power : lamp.values) {
        power *= 1e-3;
    }
    CHECK(distance(integrate(tabulate_wood(380, 780, 5), lamp, observer), before) < 1e-15);
}

TEST_CASE("A smooth reflectance on 1, 5, 10 and 20 nm gives the same colour") {
    const Observer observer = read_observer_1931();
    for (const char* name : {"CIE-A", "CIE-D65", "CIE-F11"}) {
        const Weights weights = weigh(read_illuminant(name), observer);
        const XYZ exact = integrate(tabulate_wood(360, 830, 1), weights);
        const double worst_5 = distance(integrate(tabulate_wood(360, 830, 5), weights), exact);
        const double worst_10 = distance(integrate(tabulate_wood(360, 830, 10), weights), exact);
        const double worst_20 = distance(integrate(tabulate_wood(360, 820, 20), weights), exact);
        std::printf("  %s: 5 nm %.2g, 10 nm %.2g, 20 nm %.2g\n", name, worst_5, worst_10, worst_20);
        CHECK(worst_5 < 1e-9);
        CHECK(worst_10 < 1e-7);
        CHECK(worst_20 < 2e-5);
    }
}

TEST_CASE("Missing reflectances are taken as the nearest given one") {
    const Observer observer = read_observer_1931();
    const Spectrum lamp = read_illuminant("CIE-D65");
    const Spectrum narrow = tabulate_wood(400, 700, 5);
    Spectrum held{360, 5, {}};
    for (double nm = 360; nm <= 830; nm += 5) {
        held.values.push_back(narrow.at(nm));
    }
    CHECK(distance(integrate(narrow, lamp, observer), integrate(held, lamp, observer)) < 1e-15);
}

TEST_CASE("A lamp line between the observer's wavelengths is not missed") {
    const Observer observer = read_observer_1931();
    const auto white_of_line = [&](double nm) {
        Spectrum line{380, 1, std::vector<double>(401)};
        line.values[static_cast<std::size_t>(nm - 380)] = 1;
        return white_point(line, observer);
    };
    const WhitePoint at_545 = white_of_line(545);
    const WhitePoint at_546 = white_of_line(546);
    const WhitePoint at_547 = white_of_line(547);
    CHECK(at_545.X == Approx(observer.x.at(545) / observer.y.at(545)).epsilon(1e-14));
    CHECK(at_545.Z == Approx(observer.z.at(545) / observer.y.at(545)).epsilon(1e-14));
    CHECK(at_545.X < at_546.X);
    CHECK(at_546.X < at_547.X);
    CHECK(at_545.Z > at_546.Z);
    CHECK(at_546.Z > at_547.Z);
}

TEST_CASE("A coarse illuminant is interpolated to the observer's grid") {
    const Observer observer = read_observer_1931();
    const WhitePoint fine = white_point(planckian_radiator(2856, 380, 780, 5), observer);
    const WhitePoint coarse = white_point(planckian_radiator(2856, 380, 780, 10), observer);
    const double worst = std::hypot(fine.X - coarse.X, fine.Z - coarse.Z);
    check_tight("white of illuminant A from a 10 nm table", worst, 2e-4);
}
