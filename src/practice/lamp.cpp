#include "practice/lamp.h"

#include <algorithm>
#include <charconv>
#include <iterator>
#include <string_view>

#include <fmt/format.h>

#include "calibrate/model/reference_spectra.h"
#include "colour/cct.h"
#include "picture/input_error.h"
#include "picture/text_line.h"
#include "practice/led_lamp.h"

namespace tonemend {

namespace {

struct Range {
    double low, high;
};

double read_kelvin(const std::string& name, std::size_t colon, Range range) {
    double kelvin = 0;
    const char* end = name.data() + name.size();
    const auto [stop, error] = std::from_chars(name.data() + colon + 1, end, kelvin);
    if (error != std::errc{} || stop != end || !(kelvin >= range.low && kelvin <= range.high))
        throw InputError(
            fmt::format("lamp '{}': give its colour temperature as a number of kelvin from {} to {}", name,
                        range.low, range.high));
    return kelvin;
}

// What colord-data has.
constexpr std::string_view cie_illuminants[] = {"CIE-A",   "CIE-B",   "CIE-C",   "CIE-D50", "CIE-D55",
                                                "CIE-D65", "CIE-D93", "CIE-E",   "CIE-F1",  "CIE-F2",
                                                "CIE-F3",  "CIE-F4",  "CIE-F5",  "CIE-F6",  "CIE-F7",
                                                "CIE-F8",  "CIE-F9",  "CIE-F10", "CIE-F11", "CIE-F12"};

[[noreturn]] void refuse_lamp(const std::string& name) {
    throw InputError(fmt::format(
        "lamp '{}' is not known; give one of CIE-A, CIE-B, CIE-C, CIE-D50, CIE-D55, CIE-D65, CIE-D93, CIE-E, "
        "CIE-F1 to CIE-F12, or planckian:K, daylight:K or led:K with a colour temperature K such as 4000",
        one_line(name, 60)));
}

// An illuminant that ought to be there and is not keeps its own message: what to install.
Spectrum read_named(const std::string& name) {
    try {
        return read_illuminant(name);
    } catch (const InputError&) {
        if (std::find(std::begin(cie_illuminants), std::end(cie_illuminants), name) ==
            std::end(cie_illuminants))
            refuse_lamp(name);
        throw;
    }
}

const Observer& observer_1931() {
    static const Observer observer = read_observer_1931();
    return observer;
}

Bands scaled_to_peak(Bands power) {
    const double peak = *std::max_element(power.begin(), power.end());
    for (double& value : power) value /= peak;
    return power;
}

}  // namespace

Bands read_lamp(const std::string& name) {
    const std::size_t colon = name.find(':');
    if (colon == std::string::npos) return scaled_to_peak(sample_bands(read_named(name)));
    const std::string model = name.substr(0, colon);
    if (model == "planckian")
        return scaled_to_peak(sample_bands(planckian_radiator(
            read_kelvin(name, colon, {1000, 25000}), first_band_nm, band_nm(band_count - 1), band_step_nm)));
    if (model == "daylight")
        return scaled_to_peak(
            sample_bands(daylight(read_kelvin(name, colon, {4000, 25000}), read_daylight_components())));
    if (model == "led") return scaled_to_peak(led_lamp(read_kelvin(name, colon, {2500, 7000})));
    refuse_lamp(name);
}

XYZ Lamp::xyz(const Bands& reflectance) const {
    return {inner_product(weights_x, reflectance), inner_product(weights_y, reflectance),
            inner_product(weights_z, reflectance)};
}

Lab Lamp::lab(const XYZ& under_lamp) const {
    return to_lab(transform(bradford(white, d50_icc), under_lamp), d50_icc);
}

Lamp make_lamp(const std::string& first, const std::string& second, double second_share) {
    if (!(second_share >= 0 && second_share <= 1))
        throw InputError(fmt::format("the second lamp's share is {}; give 0 to 1", second_share));
    const Bands power = read_lamp(first);
    if (second.empty() || second_share == 0) return lamp_of_power(first, power);
    const Bands y = sample_bands(observer_1931().y);
    const Bands other = read_lamp(second);
    const double scale = second_share * inner_product(power, y) / inner_product(other, y);
    Bands mixed{};
    for (std::size_t i = 0; i < band_count; ++i) mixed[i] = (1 - second_share) * power[i] + scale * other[i];
    return lamp_of_power(fmt::format("{} + {:.0f} % {}", first, 100 * second_share, second), mixed);
}

Lamp lamp_of_power(const std::string& name, const Bands& power) {
    const Observer& observer = observer_1931();
    Lamp lamp;
    lamp.name = name;
    lamp.power = scaled_to_peak(power);
    const Bands x = sample_bands(observer.x);
    const Bands z = sample_bands(observer.z);
    const Bands y = sample_bands(observer.y);
    const double luminance = inner_product(lamp.power, y);
    for (std::size_t i = 0; i < band_count; ++i) {
        const double share = lamp.power[i] / luminance;
        lamp.weights_x[i] = share * x[i];
        lamp.weights_y[i] = share * y[i];
        lamp.weights_z[i] = share * z[i];
    }
    Bands diffuser;
    diffuser.fill(1);
    const XYZ white = lamp.xyz(diffuser);
    lamp.white = white_point(white);
    if (const auto temperature = correlated_colour_temperature(lamp.white))
        lamp.colour_temperature = temperature->kelvin;
    return lamp;
}

}  // namespace tonemend
