#include "cli/terminal_summary.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string_view>
#include <vector>

#include "calibrate/keep/kept_calibration.h"
#include "colour/srgb_display.h"
#include "measure/vials.h"
#include "picture/text_line.h"
#include "record/number_text.h"

namespace tonemend {
namespace {

// fmt pads by code points, so a true minus counts as one column.
std::string plain(double value) {
    return number_text(value, Sign::only_minus);
}

std::string reading_lines(const char* role, const Reading& reading, Swatches swatches) {
    std::string text = fmt::format(
        "  {:<9} {}L* {:>5} {}   a* {:>5} {}   b* {:>5} {}\n", role, swatch(reading.lab, swatches),
        plain(reading.lab.L), interval_text(reading.lab_u95[0]), plain(reading.lab.a),
        interval_text(reading.lab_u95[1]), plain(reading.lab.b), interval_text(reading.lab_u95[2]));
    if (reading.figure_share > 0) {
        for (const auto& [part, lab] :
             {std::pair{"ground", reading.ground}, std::pair{"figure", reading.figure}}) {
            text += fmt::format("    {:<7} {}L* {:>5}         a* {:>5}         b* {:>5}{}\n", part,
                                swatch(lab, swatches), plain(lab.L), plain(lab.a), plain(lab.b),
                                std::string_view(part) == "figure"
                                    ? fmt::format("         {:.0f} % of the wood", 100 * reading.figure_share)
                                    : "");
        }
    }
    return text;
}

std::string move_lines(const Comparison& comparison) {
    if (comparison.verdict == Verdict::match || comparison.unfit()) return "";
    std::string text;
    for (const Step& step : comparison.direction) {
        text += fmt::format("  {:<15} by {:>4.1f}   alone takes {:.1f} off\n", spoken(step.move), step.amount,
                            step.gain_de2000);
    }
    return text.empty() ? text : text + "\n";
}

std::string headline(const Comparison& comparison) {
    const Difference& d = comparison.difference;
    const std::string number = fmt::format("\n  ΔE2000 {:.1f} {}   ", d.de2000, interval_text(d.de2000_u95));
    if (comparison.unfit()) {
        const Warning& worst = comparison.warnings.front();
        return fmt::format("{}UNFIT, don't work by it\n  {} ({})\n\n", number, worst.text, worst.code);
    }
    return fmt::format("{}{}   (tolerance {:.1f})\n  {}\n\n", number, in_capitals(name(comparison.verdict)),
                       comparison.tolerance, say_direction(comparison.direction, comparison.verdict));
}

// The first warning of an unfit reading stands under the headline.
std::string trust_lines(const Comparison& comparison) {
    if (comparison.warnings.empty()) return "  reading good\n";
    std::string text;
    for (std::size_t i = comparison.unfit() ? 1 : 0; i < comparison.warnings.size(); ++i) {
        const Warning& warning = comparison.warnings[i];
        text += fmt::format("  {} {} ({})\n", warning.unfit ? "UNFIT:" : "mind:", warning.text, warning.code);
    }
    return text;
}

std::string light_line(const Frame& frame, const Calibration& calibration) {
    const ToneCurve& curve = calibration.curves[1];
    const std::size_t steps = curve.points().size();
    return fmt::format(
        "  card: {}, {} grey step{}{}; picture: {}{}\n", calibration.card_name, steps, steps == 1 ? "" : "s",
        curve.kind() == CurveKind::monotone ? ", tone curve measured" : "", frame.encoding.description,
        calibration.kept ? fmt::format("; calibration of {}", calibration.kept->made) : "");
}

}  // namespace

std::string swatch(const Lab& lab, Swatches swatches) {
    if (swatches == Swatches::none) return "";
    const auto [r, g, b] = to_srgb8(lab);
    return fmt::format("\x1b[48;2;{};{};{}m      \x1b[0m  ", r, g, b);
}

Swatches detect_swatches() {
    const char* depth = std::getenv("COLORTERM");
    const char* off = std::getenv("NO_COLOR");
    const bool wanted =
        depth != nullptr && (std::string_view(depth) == "truecolor" || std::string_view(depth) == "24bit");
    return wanted && (off == nullptr || *off == '\0') && isatty(STDOUT_FILENO) != 0 ? Swatches::truecolour
                                                                                    : Swatches::none;
}

std::string vial_line(const Vial& vial) {
    constexpr int half = 14;
    std::vector<std::string> cells(2 * half + 1, "-");
    const auto cell = [](double position) {
        return static_cast<std::size_t>(std::lround((std::clamp(position, -1.0, 1.0) + 1.0) * half));
    };
    cells[half] = "|";
    cells[cell(-vial.line)] = "[";
    cells[cell(vial.line)] = "]";
    const std::size_t left = cell(vial.bubble - vial.bubble_half_width),
                      right = cell(vial.bubble + vial.bubble_half_width);
    for (std::size_t i = left; i <= right; ++i) cells[i] = "=";
    if (left == right) {
        cells[left] = "o";
    } else {
        cells[left] = "(", cells[right] = ")";
    }
    std::string tube;
    for (const std::string& c : cells) tube += c;
    return fmt::format("  {:>8}  |{}|  {:<8}   {}  {:>5} {}", vial.left, tube, vial.right, vial.axis,
                       number_text(vial.difference, Sign::always), interval_text(vial.u95));
}

std::string summarise(const Frame& frame, const Calibration& calibration, const Comparison& comparison,
                      Swatches swatches) {
    std::string text = headline(comparison);
    const auto vials = draw_vials(comparison);
    for (const Vial& vial : vials) text += vial_line(vial) + "\n";
    text += fmt::format(
        "  bubble: where the repair is; [ ]: within tolerance; ends at ±{:.0f}; numbers: repair minus "
        "original\n\n",
        vials[0].scale);
    text += move_lines(comparison);
    text += reading_lines("original", comparison.original, swatches);
    text += reading_lines("repair", comparison.repair, swatches);
    if (comparison.both_figured()) {
        text += fmt::format("  ground to ground ΔE2000 {:.1f}, figure to figure {:.1f}\n",
                            comparison.difference.ground_de2000, comparison.difference.figure_de2000);
    }
    text += fmt::format("  one region against itself (its two halves): original {:.1f}, repair {:.1f}\n\n",
                        comparison.original.blank_de2000, comparison.repair.blank_de2000);
    text += trust_lines(comparison);
    text += light_line(frame, calibration);
    if (comparison.many_lights && comparison.many_lights->used)
        text += fmt::format("  {} lights: the camera's part of the ± falls from {:.2f} to {:.2f}\n",
                            comparison.many_lights->lights.size(), comparison.many_lights->camera_u95_alone,
                            comparison.many_lights->camera_u95_together);
    if (calibration.flat_field) text += fmt::format("  {}\n", calibration.flat_field->description());
    text += "  CIELAB D50/2°, under the light of this picture; ± is the 95 % interval\n";
    return text;
}

}  // namespace tonemend
