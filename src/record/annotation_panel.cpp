#include "record/annotation_panel.h"

#include <algorithm>
#include <cmath>

#include "colour/srgb_display.h"
#include "measure/vials.h"

namespace tonemend {
namespace {

using namespace panel_paint;

Paint paint_of(const Lab& lab) {
    const auto [r, g, b] = to_srgb8(lab);
    return {r / 255.0, g / 255.0, b / 255.0};
}

void circle(Canvas& canvas, const Point& centre, double radius, const Paint& paint) {
    canvas.rounded_box({centre.x - radius, centre.y - radius, 2 * radius, 2 * radius}, radius, paint);
}

void cross(Canvas& canvas, const Point& centre, double radius, const Paint& paint) {
    const double reach = 0.7 * radius;
    for (const double way : {-1.0, 1.0})
        canvas.line({centre.x - reach, centre.y - way * reach}, {centre.x + reach, centre.y + way * reach},
                    paint, 0.35 * radius);
}

// A full disc for a match, a ring for close, two parted discs for off, a ring with a bar for undecided.
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

// The tube's positions run from −1 to +1.
double place_on(const CanvasBox& box, double position) {
    return box.x + 0.5 * box.width * (1 + position);
}

void draw_vial(Canvas& canvas, const Vial& vial, const CanvasBox& box, double unit, bool to_be_moved) {
    const double middle = box.y + 0.5 * box.height;
    canvas.rounded_box(box, 0.5 * box.height, tube);
    for (const double line : {-vial.line, vial.line}) {
        canvas.line({place_on(box, line), box.y}, {place_on(box, line), box.y + box.height}, ink,
                    0.12 * unit);
    }
    const double half = std::max(vial.bubble_half_width * 0.5 * box.width, 0.3 * box.height);
    const double from = std::max(box.x, place_on(box, vial.bubble) - half);
    const double to = std::min(box.x + box.width, place_on(box, vial.bubble) + half);
    const double thick = 0.7 * box.height;
    canvas.rounded_box({from, middle - 0.5 * thick, to - from, thick},
                       std::min(0.5 * thick, 0.5 * (to - from)), bubble);
    const double space = 0.25 * unit;
    const double tip = place_on(box, 0), start = vial.bubble < 0 ? to + space : from - space;
    if (to_be_moved && std::abs(tip - start) > 0.8 * unit &&
        (tip - start) * (tip - place_on(box, vial.bubble)) > 0) {
        canvas.arrow({start, middle}, {tip, middle}, accent, 0.22 * unit);
    }
}

bool moves_along(const Comparison& comparison, std::size_t axis) {
    if (comparison.unfit() || comparison.verdict == Verdict::match) return false;
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

}  // namespace

void draw_panel(Canvas& canvas, const Comparison& comparison, const PanelLayout& layout, double top) {
    const auto lowered = [top](CanvasBox box) {
        box.y += top;
        return box;
    };
    const CanvasBox shape = lowered(layout.shape);
    const Point centre{shape.x + 0.5 * shape.width, shape.y + 0.5 * shape.height};
    const double radius = 0.46 * shape.width;
    if (comparison.unfit()) {
        cross(canvas, centre, radius, ink);
    } else {
        draw_verdict_shape(canvas, comparison.verdict, centre, radius);
    }
    const auto vials = draw_vials(comparison);
    for (std::size_t k = 0; k < vials.size(); ++k)
        draw_vial(canvas, vials[k], lowered(layout.tubes[k]), layout.unit, moves_along(comparison, k));
    canvas.rounded_box(lowered(layout.colours[0]), 0, paint_of(comparison.original.lab));
    canvas.rounded_box(lowered(layout.colours[1]), 0, paint_of(comparison.repair.lab));
    for (const PanelText& text : layout.texts)
        canvas.text({text.top_left.x, text.top_left.y + top}, text.text, text.style);
}

}  // namespace tonemend
