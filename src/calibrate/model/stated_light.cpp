#include "calibrate/model/stated_light.h"

#include <fmt/format.h>

#include <charconv>

#include "calibrate/model/led_light.h"
#include "calibrate/model/reference_spectra.h"
#include "colour/cct.h"
#include "colour/illuminant.h"
#include "colour/integrate.h"
#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

constexpr double radiator_first_nm = 380, radiator_last_nm = 780, radiator_step_nm = 5;
constexpr double daylight_from = 4500;

[[noreturn]] void refuse_light(const std::string& text) {
    throw InputError(fmt::format(
        "--light {}: give a colour temperature such as 2700 (2000 to 10000 K), a CIE illuminant such as "
        "CIE-A, CIE-D50 or CIE-D65, or planckian:2856, daylight:5500 or led:3000 (2500 to 7000 K)",
        one_line(text, 40)));
}

std::optional<double> parse_number(std::string_view text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return value;
}

double kelvin_within(const std::string& text, std::string_view number, double low, double high) {
    if (number.ends_with('K')) number.remove_suffix(1);
    const auto kelvin = parse_number(number);
    if (!kelvin || !(*kelvin >= low && *kelvin <= high)) refuse_light(text);
    return *kelvin;
}

StatedLight cie_illuminant(const std::string& text) {
    StatedLight light{text, 0, std::nullopt, {}};
    try {
        light.power = read_illuminant(text);
    } catch (const InputError&) {
        // An illuminant that ought to be there and is not keeps its own message: what to install.
        for (const char* name : {"CIE-A", "CIE-D50", "CIE-D55", "CIE-D65"})
            if (text == name) throw;
        refuse_light(text);
    }
    const auto temperature = correlated_colour_temperature(white_point(light.power, read_observer_1931()));
    if (!temperature) refuse_light(text);
    light.kelvin = temperature->kelvin;
    const bool fluorescent = text.starts_with("CIE-F");
    if (!fluorescent) light.family = LampFamily::thermal;
    return light;
}

Spectrum planckian(double kelvin) {
    return planckian_radiator(kelvin, radiator_first_nm, radiator_last_nm, radiator_step_nm);
}

}  // namespace

StatedLight light_of_temperature(double kelvin) {
    return {fmt::format("{:.0f} K", kelvin), kelvin, std::nullopt,
            kelvin < daylight_from ? planckian(kelvin) : daylight(kelvin, read_daylight_components())};
}

StatedLight parse_light(const std::string& text) {
    if (text.starts_with("CIE-")) return cie_illuminant(text);
    const std::size_t colon = text.find(':');
    if (colon == std::string::npos) return light_of_temperature(kelvin_within(text, text, 2000, 10000));
    const std::string_view model = std::string_view(text).substr(0, colon);
    const std::string_view number = std::string_view(text).substr(colon + 1);
    if (model == "planckian") {
        const double kelvin = kelvin_within(text, number, 2000, 10000);
        return {text, kelvin, LampFamily::thermal, planckian(kelvin)};
    }
    if (model == "daylight") {
        const double kelvin = kelvin_within(text, number, 4000, 25000);
        return {text, kelvin, LampFamily::thermal, daylight(kelvin, read_daylight_components())};
    }
    if (model == "led") {
        const double kelvin = kelvin_within(text, number, 2500, 7000);
        return {text, kelvin, LampFamily::led, led_light(kelvin)};
    }
    refuse_light(text);
}

}  // namespace tonemend
