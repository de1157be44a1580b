#include "calibrate/model/led_light.h"

#include <algorithm>
#include <cmath>

#include "calibrate/model/reference_spectra.h"
#include "colour/cct.h"
#include "colour/integrate.h"

namespace tonemend {
namespace {

constexpr double led_first_nm = 380, led_step_nm = 5;
constexpr std::size_t count = 81;

// A Gaussian with a width of its own on either side.
double bump(double nm, double centre, double below, double above) {
    const double u = (nm - centre) / (nm < centre ? below : above);
    return std::exp(-0.5 * u * u);
}

Spectrum with_blue(double kelvin, double blue, const LedShape& shape) {
    const double warmth = std::clamp((6500 - kelvin) / 3800, 0.0, 1.0);
    const double phosphor_nm = 550 + 50 * warmth + shape.phosphor_nm;
    Spectrum power{led_first_nm, led_step_nm, {}};
    for (std::size_t i = 0; i < count; ++i) {
        const double nm = led_first_nm + led_step_nm * static_cast<double>(i);
        power.values.push_back(blue * bump(nm, shape.blue_nm, 9, 12) +
                               bump(nm, phosphor_nm, 48 * shape.phosphor_width, 66 * shape.phosphor_width));
    }
    return power;
}

double sum_of_products(const Spectrum& power, const Spectrum& matching) {
    double sum = 0;
    for (std::size_t i = 0; i < count; ++i)
        sum += power.values[i] * matching.at(led_first_nm + led_step_nm * static_cast<double>(i));
    return sum;
}

}  // namespace

Spectrum led_light(double kelvin, const LedShape& shape) {
    static const Observer observer = read_observer_1931();
    // More blue is always a higher temperature here.
    double low = 0;
    double high = 10;
    for (int i = 0; i < 60; ++i) {
        const double blue = (low + high) / 2;
        const Spectrum power = with_blue(kelvin, blue, shape);
        const XYZ light{sum_of_products(power, observer.x), sum_of_products(power, observer.y),
                        sum_of_products(power, observer.z)};
        const auto temperature = correlated_colour_temperature(to_ucs1960(light));
        // Far off the locus there is no temperature: the phosphor alone is yellow, too much blue is blue.
        const bool too_warm = temperature ? temperature->kelvin < kelvin : to_xy(light).x > 0.35;
        (too_warm ? low : high) = blue;
    }
    return with_blue(kelvin, (low + high) / 2, shape);
}

}  // namespace tonemend
