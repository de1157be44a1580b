#include "cli/second_light_summary.h"

#include <fmt/format.h>

#include <string_view>

#include "measure/light_words.h"
#include "picture/text_line.h"
#include "record/number_text.h"

namespace tonemend {
namespace {

std::string light_text(const KnownLight& light) {
    const auto kelvin = light.kelvin();
    const std::string temperature = kelvin ? fmt::format("{:.0f} K", *kelvin) : "temperature not known";
    return light.name == temperature ? temperature : fmt::format("{}, {}", light.name, temperature);
}

std::string light_line(const PairUnderOne& light, std::size_t number) {
    const Difference& d = light.comparison.difference;
    const bool unfit = light.comparison.unfit();
    return fmt::format("  {}  {:<34} ΔE2000 {:>4.1f} {}   {}\n", number, light_text(light.light), d.de2000,
                       interval_text(d.de2000_u95),
                       unfit ? "UNFIT" : in_capitals(name(light.comparison.verdict)));
}

std::string numbers(const char* what, const std::array<double, 3>& values, const std::array<double, 3>& u95) {
    std::string text = fmt::format("  {:<14}", what);
    constexpr std::array axes{"L*", "a*", "b*"};
    for (std::size_t k = 0; k < 3; ++k)
        text += fmt::format("   {} {:>5} {}", axes[k], number_text(values[k], Sign::always),
                            interval_text(u95[k]));
    return text + "\n";
}

std::array<double, 3> apart(const Difference& d) {
    return {d.dL, d.da, d.db};
}

std::string change_lines(const PairUnderLights& pair, std::size_t index) {
    const LightChange& change = pair.changes[index];
    const PairUnderOne &first = pair.lights.front(), &second = pair.lights[index + 1];
    const Difference &before = first.comparison.difference, &after = second.comparison.difference;
    std::string text = fmt::format(
        "\n  {} under {}   parts by {:.1f} {}   (caution {:.1f}, alarm "
        "{:.1f})\n  {}\n  {}\n\n",
        in_capitals(name(change.verdict)), second.light.name, change.parting,
        interval_text(change.parting_u95), pair.limits.caution, pair.limits.alarm,
        say_verdict(change, first, second), say_shift(change, second.light.name));
    text += numbers("light 1", apart(before), before.lab_u95);
    text += numbers(fmt::format("light {}", index + 2).c_str(), apart(after), after.lab_u95);
    text += numbers("change", change.shift, change.shift_u95);
    text += fmt::format("  metamerism index (had they matched in light 1)   ΔE2000 {:.1f} {}\n",
                        change.index.de2000, interval_text(change.index_u95));
    for (const Warning& warning : change.warnings)
        text += fmt::format("  mind: {} ({})\n", warning.text, warning.code);
    return text;
}

std::string origin_words(const PairUnderOne& light) {
    const auto is = [&](RegionOrigin origin) {
        return light.original_from == origin || light.repair_from == origin;
    };
    if (is(RegionOrigin::same_pixels))
        return "regions at the same pixels as in picture 1 (no card frame in both): has the camera moved?";
    if (is(RegionOrigin::carried)) return "regions carried over from picture 1";
    return "";
}

// What speaks against one light's own reading.
std::string trust_lines(const PairUnderOne& light, std::size_t number) {
    std::string text;
    const std::string words = number > 1 ? origin_words(light) : "";
    if (!words.empty()) text += fmt::format("  light {}: {}\n", number, words);
    for (const Warning& warning : light.comparison.warnings)
        text += fmt::format("  light {}, {} {} ({})\n", number,
                            warning.unfit ? "UNFIT:" : "mind:", warning.text, warning.code);
    return text;
}

}  // namespace

std::string summarise_lights(const PairUnderLights& pair) {
    std::string text = "\n";
    for (std::size_t i = 0; i < pair.lights.size(); ++i) text += light_line(pair.lights[i], i + 1);
    for (std::size_t i = 0; i < pair.changes.size(); ++i) text += change_lines(pair, i);
    text += "\n";
    for (std::size_t i = 0; i < pair.lights.size(); ++i) text += trust_lines(pair.lights[i], i + 1);
    text += fmt::format("  {}\n", beyond_the_camera());
    text +=
        "  numbers: repair minus original, CIELAB D50/2°, each under its own light; ± is the 95 % interval\n";
    return text;
}

}  // namespace tonemend
