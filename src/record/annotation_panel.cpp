#include "record/annotation_panel.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <sstream>

#include "colour/srgb_display.h"
#include "measure/vials.h"

namespace tonemend {
namespace {

using namespace panel_paint;

constexpr double verdict_size = 2.6, line_height = 1.45, vial_height = 2.0;  // in units
constexpr std::size_t columns = 62;  // characters of ordinary type across the panel

std::vector<std::string> break_lines(const std::string& text, std::size_t longest) {
    std::istringstream words(text);
    std::vector<std::string> lines;
    for (std::string word; words >> word;) {
        if (lines.empty() || lines.back().size() + 1 + word.size() > longest) {
            lines.push_back(word);
        } else {
            lines.back() += " " + word;
        }
    }
    return lines;
}

Paint paint_of(const Lab& lab) {
    const auto [r, g, b] = to_srgb8(lab);
    return {r / 255.0, g / 255.0, b / 255.0};
}

void circle(Canvas& canvas, const Point& centre, double radius, const Paint& paint) {
    canvas.rounded_box({centre.x - radius, centre.y - radius, 2 * radius, 2 * radius}, radius, paint);
}

// The verdict's shape: a full disc for a match, a ring for close, two parted discs for off, a ring with a bar
// for undecided.
void draw_verdict_shape(Canvas& canvas, Verdict verdict, const Point& centre, double radius) {
    switch (verdict) {
        case Verdict::match:
            circle(canvas, centre, radius, ink);
            break;
        case Verdict::close:
            circle(canvas, centre, radius, ink);
            circle(canvas, centre, 0.62 * radius, background);
            break;
        case Verdict::off:
            circle(canvas, {centre.x - 0.55 * radius, centre.y}, 0.42 * radius, ink);
            circle(canvas, {centre.x + 0.55 * radius, centre.y}, 0.42 * radius, ink);
            break;
        case Verdict::undecided:
            circle(canvas, centre, radius, faint);
            circle(canvas, centre, 0.8 * radius, background);
            canvas.line({centre.x - 0.4 * radius, centre.y}, {centre.x + 0.4 * radius, centre.y}, faint,
                        0.2 * radius);
            break;
    }
}

struct VialPlace {
    double left, width, middle, height;  // of the tube; middle is its axis
    double x(double position) const { return left + 0.5 * width * (1 + position); }
};

void right_aligned(Canvas& canvas, double right, double middle, const std::string& text,
                   const TextStyle& style) {
    const TextExtent extent = canvas.measure(text, style);
    canvas.text({right - extent.width, middle - 0.5 * extent.height}, text, style);
}

void draw_vial(Canvas& canvas, const Vial& vial, const VialPlace& place, double unit, bool to_be_moved) {
    const TextStyle side{unit, faint};
    right_aligned(canvas, place.left - 0.5 * unit, place.middle, std::string(vial.left), side);
    const TextExtent right = canvas.measure(std::string(vial.right), side);
    canvas.text({place.left + place.width + 0.5 * unit, place.middle - 0.5 * right.height},
                std::string(vial.right), side);
    canvas.rounded_box({place.left, place.middle - 0.5 * place.height, place.width, place.height},
                       0.5 * place.height, tube);
    for (const double line : {-vial.line, vial.line}) {
        canvas.line({place.x(line), place.middle - 0.5 * place.height},
                    {place.x(line), place.middle + 0.5 * place.height}, ink, 0.1 * unit);
    }
    const double half = std::max(vial.bubble_half_width * 0.5 * place.width, 0.3 * place.height);
    const double from = std::max(place.left, place.x(vial.bubble) - half);
    const double to = std::min(place.left + place.width, place.x(vial.bubble) + half);
    const double thick = 0.7 * place.height;
    canvas.rounded_box({from, place.middle - 0.5 * thick, to - from, thick},
                       std::min(0.5 * thick, 0.5 * (to - from)), bubble);
    const double gap = 0.25 * unit;
    const double tip = place.x(0), start = vial.bubble < 0 ? to + gap : from - gap;
    if (to_be_moved && std::abs(tip - start) > 0.8 * unit &&
        (tip - start) * (tip - place.x(vial.bubble)) > 0) {
        canvas.arrow({start, place.middle}, {tip, place.middle}, accent, 0.2 * unit);
    }
}

bool moves_along(const Comparison& comparison, std::size_t axis) {
    return std::any_of(comparison.direction.begin(), comparison.direction.end(), [axis](const Step& step) {
        switch (step.move) {
            case Move::darken:
            case Move::lighten:
                return axis == 0;
            case Move::redden:
            case Move::greenen:
                return axis == 1;
            case Move::yellow:
            case Move::blue:
                return axis == 2;
        }
        return false;
    });
}

void draw_vials_and_numbers(Canvas& canvas, const Comparison& comparison, const PanelLayout& layout,
                            double top) {
    const double unit = layout.unit;
    const auto vials = draw_vials(comparison);
    for (std::size_t k = 0; k < vials.size(); ++k) {
        const double middle = top + (static_cast<double>(k) + 0.5) * vial_height * unit;
        const VialPlace place{6.2 * unit, 14.0 * unit, middle, 1.1 * unit};
        draw_vial(canvas, vials[k], place, unit, moves_along(comparison, k));
        const std::string number = fmt::format("{} {} ± {:.1f}", vials[k].axis,
                                               signed_text(vials[k].difference, Sign::always), vials[k].u95);
        right_aligned(canvas, 33.0 * unit, middle, number, {unit, ink});
    }
    canvas.text({6.2 * unit, top + 3 * vial_height * unit},
                fmt::format("ends ±{:.0f}, lines: tolerance; repair minus original", vials[0].scale),
                {0.72 * unit, faint});
}

void draw_pair(Canvas& canvas, const Comparison& comparison, const PanelLayout& layout, double top) {
    const double unit = layout.unit;
    const double left = 34.2 * unit, side = 0.5 * (layout.width - unit - left),
                 height = 3 * vial_height * unit;
    canvas.rounded_box({left, top, side, height}, 0, paint_of(comparison.original.lab));
    canvas.rounded_box({left + side, top, side, height}, 0, paint_of(comparison.repair.lab));
    const TextStyle style{0.72 * unit, faint};
    canvas.text({left, top + height}, "original", style);
    canvas.text({left + side, top + height}, "repair", style);
}

}  // namespace

std::string signed_text(double value, Sign sign) {
    const double rounded = std::round(value * 10) / 10;
    const char* front = rounded < 0 ? "−" : sign == Sign::always && rounded > 0 ? "+" : "";
    return fmt::format("{}{:.1f}", front, std::abs(rounded));
}

PanelLayout lay_out_panel(const Comparison& comparison, int width, double unit) {
    PanelLayout layout;
    layout.width = width;
    layout.unit = unit;
    layout.sentence = break_lines(say_direction(comparison.direction, comparison.verdict), columns);
    const std::string trust =
        comparison.warnings.empty() ? "Reading good." : "Mind: " + comparison.warnings.front().text + ".";
    layout.trust = break_lines(trust, columns);
    const double lines = static_cast<double>(layout.sentence.size() + layout.trust.size());
    layout.height = static_cast<int>(
        std::ceil(unit * (0.6 + 1.5 * verdict_size + lines * line_height + 3 * vial_height + 3.0)));
    return layout;
}

void draw_panel(Canvas& canvas, const Comparison& comparison, const PanelLayout& layout, double top) {
    const double unit = layout.unit;
    double y = top + 0.6 * unit;
    const Difference& d = comparison.difference;
    const TextStyle large{verdict_size * unit, ink, FontWeight::bold};
    draw_verdict_shape(canvas, comparison.verdict, {2.6 * unit, y + 0.62 * verdict_size * unit}, 1.1 * unit);
    canvas.text({4.6 * unit, y},
                fmt::format("{:.1f} ± {:.1f}  {}", d.de2000, d.de2000_u95, name(comparison.verdict)), large);
    right_aligned(canvas, layout.width - unit, y + 0.62 * verdict_size * unit,
                  fmt::format("ΔE2000, tolerance {:.1f}", comparison.tolerance), {unit, faint});
    y += 1.5 * verdict_size * unit;
    for (const std::string& line : layout.sentence) {
        canvas.text({unit, y}, line, {1.15 * unit, ink});
        y += line_height * unit;
    }
    y += 0.5 * unit;
    draw_vials_and_numbers(canvas, comparison, layout, y);
    draw_pair(canvas, comparison, layout, y);
    y += (3 * vial_height + 1.5) * unit;
    for (const std::string& line : layout.trust) {
        canvas.text({unit, y}, line, {unit, comparison.unfit() ? ink : faint});
        y += line_height * unit;
    }
}

}  // namespace tonemend
