// Tables that stand for slow functions, and the smoothest reflectance.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "advise/schedule/finish_table.h"
#include "advise/schedule/second_look.h"
#include "calibrate/model/reference_spectra.h"
#include "colour/adaptation.h"
#include "colour/difference.h"
#include "colour/integrate.h"
#include "measure/smoothest_reflectance.h"
#include "tests/catch.h"

using namespace tonemend;

TEST_CASE("The finish by table is the finish reckoned") {
    const FinishModel model({}, {});
    const FinishTable table(model);
    double worst = 0;
    for (double L = 20; L <= 85; L += 7.3)
        for (double a = 2; a <= 26; a += 6.7)
            for (double b = 6; b <= 40; b += 8.9)
                worst =
                    std::max(worst, ciede2000(table.finished(Lab{L, a, b}), model.finished({L, a, b})).value);
    fmt::print("finish by table: worst ΔE2000 {:.3f}\n", worst);
    CHECK(worst < 0.1);
    CHECK(worst > 0.001);
}

TEST_CASE("The smoothest reflectance has the colour asked for and lies between 0 and 1") {
    // Colours: the CIE's 14 test-colour samples (CIE 13.3-1995, from colord-data) under D50. Method and what
    // is asked of it: S. A. Burns 2020, see smoothest_reflectance.h.
    const Weights d50 = weigh(read_illuminant("CIE-D50"), read_observer_1931());
    double worst = 0, worst_fit = 0;
    for (const Spectrum& sample : read_test_colour_samples()) {
        const XYZ xyz = integrate(sample, d50);
        const Lab lab = to_lab(transform(bradford(white_point(d50), d50_icc), xyz), d50_icc);
        const SmoothestReflectance smooth(lab);
        double sum = 0;
        for (std::size_t i = 0; i < SmoothestReflectance::count; ++i) {
            CHECK(smooth.values()[i] > 0);
            CHECK(smooth.values()[i] < 1);
            const double miss = smooth.values()[i] - sample.at(SmoothestReflectance::wavelength(i));
            sum += miss * miss;
        }
        worst_fit = std::max(worst_fit, std::sqrt(sum / SmoothestReflectance::count));
        const Lab reached{lab.L - smooth.missed().L, lab.a - smooth.missed().a, lab.b - smooth.missed().b};
        const XYZ asked = to_xyz(lab, d50_icc), got = to_xyz(reached, d50_icc);
        worst = std::max(
            {worst, std::abs(asked.X - got.X), std::abs(asked.Y - got.Y), std::abs(asked.Z - got.Z)});
        // By the CIE's own sum too, not the curve's.
        const Spectrum curve{SmoothestReflectance::wavelength(0), 10, smooth.values()};
        CHECK(integrate(curve, d50).Y == Approx(xyz.Y).margin(0.002));
    }
    fmt::print(
        "smoothest reflectance: worst round trip {:.1e}, farthest from the sample {:.3f} (root mean "
        "square)\n",
        worst, worst_fit);
    CHECK(worst <= 1e-4);
    CHECK(worst_fit < 0.2);
    // A grey is flat.
    const SmoothestReflectance grey(Lab{50, 0, 0});
    const auto [low, high] = std::minmax_element(grey.values().begin(), grey.values().end());
    CHECK(*high - *low < 0.01);
    // What no surface has comes back as asked all the same.
    const Lab wild = SmoothestReflectance(Lab{30, 90, -110}).lab_after([](double reflectance, double) {
        return reflectance;
    });
    CHECK(ciede2000(wild, {30, 90, -110}).value < 1e-6);
}

TEST_CASE("Under a second light a pair is what was read there, and moves as its colour does") {
    const StatedLight bulb = parse_light("CIE-A");
    const SecondLook look(bulb, {45, 15, 28}, {52, 13, 27}, {52, 11, 25});
    CHECK(ciede2000(look.repair({52, 11, 25}), {52, 13, 27}).value < 1e-9);
    // Darker stays darker, redder redder. (That a change of colour keeps its direction: from memory.)
    CHECK(look.repair({45, 11, 25}).L < 47);
    CHECK(look.repair({52, 16, 25}).a > 15);
}
