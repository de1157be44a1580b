#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "measure/vials.h"
#include "record/annotation_panel.h"
#include "record/number_text.h"

namespace tonemend {
namespace {

using namespace panel_paint;

// In units.
constexpr double verdict_size = 2.5, sentence_size = 1.2, line_height = 1.45, vial_height = 2.2;
constexpr double tube_height = 1.2, pair_height = 3.4, gap = 0.6;

// Puts texts and boxes from top to bottom; everything is measured before it is placed.
class Pen {
  public:
    Pen(int width, PanelLayout& layout) : layout_(layout), canvas_(DisplayPicture{1, 1, {0, 0, 0}}) {
        layout.width = width;
        layout.unit = width / panel_units;
    }
    double unit() const { return layout_.unit; }
    double left() const { return unit(); }
    double right() const { return layout_.width - unit(); }

    TextStyle style(double size, const Paint& paint, FontWeight weight = FontWeight::regular) const {
        return {size * unit(), paint, weight};
    }
    TextExtent measure(const std::string& text, const TextStyle& style) const {
        return canvas_.measure(text, style);
    }
    void put(double x, double top, const std::string& text, const TextStyle& style) {
        layout_.texts.push_back({{x, top}, text, style});
    }
    /// Centred on `middle`; `share` of its width lies left of `x`.
    void put_beside(double x, double middle, double share, const std::string& text, const TextStyle& style) {
        const TextExtent extent = measure(text, style);
        put(x - share * extent.width, middle - 0.5 * extent.height, text, style);
    }
    /// Broken into lines between the margins; moves `y` below them.
    void put_lines(const std::string& text, const TextStyle& style) {
        std::istringstream words(text);
        std::string line;
        for (std::string word; words >> word;) {
            const std::string longer = line.empty() ? word : fmt::format("{} {}", line, word);
            if (!line.empty() && measure(longer, style).width > right() - left()) {
                put_line(line, style);
                line = word;
            } else {
                line = longer;
            }
        }
        put_line(line, style);
    }

    double y = 0;

  private:
    void put_line(const std::string& line, const TextStyle& style) {
        put(left(), y, line, style);
        y += line_height * style.size;
    }

    PanelLayout& layout_;
    Canvas canvas_;  // for measuring alone
};

void place_verdict(Pen& pen, const Comparison& comparison, PanelLayout& layout) {
    const Difference& d = comparison.difference;
    const std::string text = fmt::format("{:.1f} {}  {}", d.de2000, interval_text(d.de2000_u95),
                                         comparison.unfit() ? "UNFIT" : name(comparison.verdict));
    const double unit = pen.unit(), left = pen.left() + 3.4 * unit;
    TextStyle style = pen.style(verdict_size, ink, FontWeight::bold);
    style.size *= std::min(1.0, (pen.right() - left) / pen.measure(text, style).width);
    const TextExtent extent = pen.measure(text, style);
    pen.put(left, pen.y, text, style);
    layout.shape = {pen.left(), pen.y + 0.5 * extent.height - 1.2 * unit, 2.4 * unit, 2.4 * unit};
    pen.y += std::max(extent.height, 2.6 * unit);
    pen.put_lines(fmt::format("ΔE2000, tolerance {:.1f}", comparison.tolerance),
                  pen.style(small_print, faint));
    pen.y += 0.5 * gap * unit;
}

void place_vials(Pen& pen, const Comparison& comparison, PanelLayout& layout) {
    const double unit = pen.unit(), space = gap * unit;
    const TextStyle side = pen.style(small_print, faint), number = pen.style(1, ink);
    const auto vials = draw_vials(comparison);
    std::array<std::string, 3> numbers;
    double left_width = 0, right_width = 0, number_width = 0;
    for (std::size_t k = 0; k < 3; ++k) {
        numbers[k] = fmt::format("{} {} {}", vials[k].axis, number_text(vials[k].difference, Sign::always),
                                 interval_text(vials[k].u95));
        left_width = std::max(left_width, pen.measure(std::string(vials[k].left), side).width);
        right_width = std::max(right_width, pen.measure(std::string(vials[k].right), side).width);
        number_width = std::max(number_width, pen.measure(numbers[k], number).width);
    }
    const double tube_left = pen.left() + left_width + space;
    const double tube_right = pen.right() - number_width - 2.6 * space - right_width;
    for (std::size_t k = 0; k < 3; ++k, pen.y += vial_height * unit) {
        const double middle = pen.y + 0.5 * vial_height * unit;
        layout.tubes[k] = {tube_left, middle - 0.5 * tube_height * unit, tube_right - tube_left,
                           tube_height * unit};
        pen.put_beside(tube_left - space, middle, 1, std::string(vials[k].left), side);
        pen.put_beside(tube_right + space, middle, 0, std::string(vials[k].right), side);
        pen.put_beside(pen.right(), middle, 1, numbers[k], number);
    }
    const double middle = pen.y + 0.5 * line_height * unit;
    const std::string end = fmt::format("{:.0f}", vials[0].scale);
    pen.put_beside(tube_left, middle, 0.5, end, side);
    pen.put_beside(0.5 * (tube_left + tube_right), middle, 0.5, "0", side);
    pen.put_beside(tube_right, middle, 0.5, end, side);
    pen.y += line_height * unit;
    pen.put_lines("Bubble: the repair, as wide as its ±. Lines: tolerance. Numbers: repair minus original.",
                  side);
    pen.y += space;
}

void place_pair(Pen& pen, PanelLayout& layout) {
    const double unit = pen.unit(), side = 0.5 * (pen.right() - pen.left());
    const TextStyle style = pen.style(small_print, faint);
    pen.put(pen.left(), pen.y, "original", style);
    pen.put(pen.left() + side, pen.y, "repair", style);
    pen.y += line_height * small_print * unit;
    for (std::size_t k = 0; k < 2; ++k)
        layout.colours[k] = {pen.left() + static_cast<double>(k) * side, pen.y, side, pair_height * unit};
    pen.y += (pair_height + gap) * unit;
}

// The first one of an unfit reading stands under the verdict.
void place_warnings(Pen& pen, const Comparison& comparison) {
    if (comparison.warnings.empty()) pen.put_lines("Reading good.", pen.style(1, faint));
    for (std::size_t i = comparison.unfit() ? 1 : 0; i < comparison.warnings.size(); ++i) {
        const Warning& warning = comparison.warnings[i];
        pen.put_lines(fmt::format("{} {}.", warning.unfit ? "UNFIT:" : "Mind:", warning.text),
                      pen.style(1, ink));
        pen.y += 0.3 * pen.unit();
    }
}

}  // namespace

PanelLayout lay_out_panel(const Comparison& comparison, int width, const std::string& light) {
    PanelLayout layout;
    Pen pen(width, layout);
    pen.y = gap * pen.unit();
    place_verdict(pen, comparison, layout);
    pen.put_lines(comparison.unfit() ? "Don't work by it: " + comparison.warnings.front().text + "."
                                     : say_direction(comparison.direction, comparison.verdict),
                  pen.style(sentence_size, ink));
    pen.y += gap * pen.unit();
    place_vials(pen, comparison, layout);
    place_pair(pen, layout);
    place_warnings(pen, comparison);
    if (!light.empty()) pen.put_lines(light, pen.style(small_print, faint));
    layout.height = static_cast<int>(std::ceil(pen.y + gap * pen.unit()));
    return layout;
}

}  // namespace tonemend
