#include "measure/light_warnings.h"

#include <fmt/format.h>

#include <cmath>

namespace tonemend {
namespace {

// Well beyond what a camera's matrix is off by (tests/calibrate/light_temperature.cpp: 3 %); no source.
constexpr double most_off_per_megakelvin = 60;

Warning alike(const LightChange& change) {
    return {"lights-alike",
            fmt::format("the two lights show colours too much alike (test colours differ by ΔE2000 {:.1f} "
                        "between them): a pair that parts elsewhere may well hold here; take two that differ "
                        "by {:.1f} or more: over 2000 K apart and of another kind, such as daylight and an "
                        "incandescent bulb",
                        *change.unlikeness, least_unlikeness),
            false};
}

Warning unknown(const std::string& names) {
    return {"lights-unknown",
            names +
                ": what light this is neither you nor the picture says (a developed picture is balanced "
                "to white); state both lights, since two that are alike tell nothing",
            false};
}

std::optional<Warning> not_as_stated(const KnownLight& light) {
    if (!light.stated || !light.seen_kelvin) return std::nullopt;
    const double off = 1e6 / *light.seen_kelvin - 1e6 / light.stated->kelvin;
    if (!(std::abs(off) > most_off_per_megakelvin)) return std::nullopt;
    return Warning{
        "light-not-as-stated",
        fmt::format("{}: stated as {:.0f} K, but the picture's white is that of about {:.0f} K; have "
                    "the pictures been swapped, or was another lamp on as well?",
                    light.name, light.stated->kelvin, *light.seen_kelvin),
        false};
}

}  // namespace

std::vector<Warning> warn_of_lights(const PairUnderOne& first, const PairUnderOne& second,
                                    const LightChange& change) {
    std::vector<Warning> warnings;
    if (change.unlikeness && *change.unlikeness < least_unlikeness) warnings.push_back(alike(change));
    const KnownLight &one = first.light, &other = second.light;
    if (!one.kelvin() && !other.kelvin())
        warnings.push_back(unknown(one.name + " and " + other.name));
    else if (!one.kelvin() || !other.kelvin())
        warnings.push_back(unknown(one.kelvin() ? other.name : one.name));
    for (const KnownLight* light : {&one, &other})
        if (const auto warning = not_as_stated(*light)) warnings.push_back(*warning);
    return warnings;
}

}  // namespace tonemend
