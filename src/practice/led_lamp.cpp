#include "practice/led_lamp.h"

#include <algorithm>
#include <cmath>

#include "calibrate/reference_spectra.h"
#include "colour/cct.h"

namespace tonemend {

namespace {

Bands with_blue(double kelvin, double blue) {
    const double warmth = std::clamp((6500 - kelvin) / 3800, 0.0, 1.0);
    const double phosphor_nm = 550 + 50 * warmth;
    return make_bands([&](double nm) {
        const auto bump = [nm](double centre, double below, double above) {
            const double u = (nm - centre) / (nm < centre ? below : above);
            return std::exp(-0.5 * u * u);
        };
        return blue * bump(452, 9, 12) + bump(phosphor_nm, 48, 66);
    });
}

}  // namespace

Bands led_lamp(double kelvin) {
    static const Observer observer = read_observer_1931();
    const Bands x = sample_bands(observer.x);
    const Bands y = sample_bands(observer.y);
    const Bands z = sample_bands(observer.z);
    // More blue is always a higher temperature here.
    double low = 0;
    double high = 10;
    for (int i = 0; i < 60; ++i) {
        const double blue = (low + high) / 2;
        const Bands power = with_blue(kelvin, blue);
        const XYZ light{inner_product(power, x), inner_product(power, y), inner_product(power, z)};
        const auto temperature = correlated_colour_temperature(to_ucs1960(light));
        // Far off the locus there is no temperature: the phosphor alone is yellow, too much blue is blue.
        const bool too_warm = temperature ? temperature->kelvin < kelvin : to_xy(light).x > 0.35;
        (too_warm ? low : high) = blue;
    }
    return with_blue(kelvin, (low + high) / 2);
}

}  // namespace tonemend
