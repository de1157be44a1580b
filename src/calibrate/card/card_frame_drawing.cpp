#include "calibrate/card/card_frame_drawing.h"

#include <algorithm>

#include <fmt/format.h>

namespace tonemend {
namespace {

using Pattern = DrawnLine::Pattern;
using Weight = DrawnText::Weight;

constexpr double ink = 0.15;        // lettering and rules
constexpr double trim_line = 0.75;  // where the sheet may be trimmed
constexpr double window_grey = 0.88;

void outline(CardFrameDrawing& drawing, double x, double y, double width, double height, double thickness,
             double grey, Pattern pattern) {
    drawing.lines.push_back({x, y, x + width, y, thickness, grey, pattern});
    drawing.lines.push_back({x + width, y, x + width, y + height, thickness, grey, pattern});
    drawing.lines.push_back({x + width, y + height, x, y + height, thickness, grey, pattern});
    drawing.lines.push_back({x, y + height, x, y, thickness, grey, pattern});
}

/// Two neighbouring boxes show a hairline between them in many viewers, so cells of a row are joined.
void add_marker(CardFrameDrawing& drawing, const CardFrame& frame, int index) {
    for (const FrameCell& cell : marker_cells(frame, index)) {
        DrawnBox* last = drawing.boxes.empty() ? nullptr : &drawing.boxes.back();
        if (last && last->grey == 0 && last->y == cell.y && last->x + last->width == cell.x)
            last->width += cell.side;
        else
            drawing.boxes.push_back({cell.x, cell.y, cell.side, cell.side, 0});
    }
}

void add_heading(CardFrameDrawing& drawing, const CardFrame& frame, double scale) {
    const double centre = frame.sheet_width / 2;
    const double top = marker_corner(frame, 0).y;
    const double bottom = top + frame.marker_side;
    const double arrow = 2.6 * scale;
    drawing.triangles.push_back(
        {{centre, top}, {centre + arrow, top + 1.7 * arrow}, {centre - arrow, top + 1.7 * arrow}});
    drawing.texts.push_back({centre, top + 1.7 * arrow + 3.6 * scale, 3 * scale, Weight::normal, "top"});
    drawing.texts.push_back({centre, bottom - 5.2 * scale, 4.4 * scale, Weight::bold, "Tonemend card frame"});
    drawing.texts.push_back(
        {centre, bottom - 0.6 * scale, 2.8 * scale, Weight::normal,
         fmt::format("{}: window {:g} × {:g} mm", frame.name, frame.window_width, frame.window_height)});
}

void add_instructions(CardFrameDrawing& drawing, const CardFrame& frame, double scale) {
    const double centre = frame.sheet_width / 2;
    const double top = marker_corner(frame, 2).y;
    const char* const lines[] = {"Cut out the grey window. Put the card",
                                 "behind it so that it fills the window.", "Matt paper. Print at 100 %."};
    double baseline = top + 2.4 * scale;
    for (const char* line : lines) {
        drawing.texts.push_back({centre, baseline, 2.6 * scale, Weight::normal, line});
        baseline += 3.7 * scale;
    }
}

void add_check_rule(CardFrameDrawing& drawing, const CardFrame& frame, double scale) {
    constexpr double length = 50;
    const double centre = frame.sheet_width / 2;
    const double left = centre - length / 2;
    const double bottom = marker_corner(frame, 2).y + frame.marker_side;
    const double y = bottom - 5 * scale;
    drawing.lines.push_back({left, y, left + length, y, 0.25, ink, Pattern::solid});
    for (int tick = 0; tick <= 5; ++tick) {
        const double height = tick % 5 == 0 ? 3 : 1.5;
        const double x = left + 10 * tick;
        drawing.lines.push_back({x, y - height, x, y, 0.25, ink, Pattern::solid});
    }
    drawing.texts.push_back(
        {centre, bottom - 0.6 * scale, 2.6 * scale, Weight::normal, "measure this: 50 mm"});
}

}  // namespace

CardFrameDrawing draw_card_frame(const CardFrame& frame) {
    CardFrameDrawing drawing;
    drawing.title = fmt::format("Tonemend card frame, {}", frame.name);
    drawing.width = frame.sheet_width;
    drawing.height = frame.sheet_height;
    drawing.boxes.push_back({0, 0, frame.sheet_width, frame.sheet_height, 1});
    drawing.boxes.push_back(
        {frame.window_x, frame.window_y, frame.window_width, frame.window_height, window_grey});
    for (int index = 0; index < 4; ++index) add_marker(drawing, frame, index);

    constexpr double half_trim = 0.1;
    outline(drawing, half_trim, half_trim, frame.sheet_width - 2 * half_trim,
            frame.sheet_height - 2 * half_trim, 2 * half_trim, trim_line, Pattern::solid);
    outline(drawing, frame.window_x, frame.window_y, frame.window_width, frame.window_height, 0.2, ink,
            Pattern::dashed);

    const double scale = frame.marker_side / card_frames().front().marker_side;
    add_heading(drawing, frame, scale);
    add_instructions(drawing, frame, scale);
    add_check_rule(drawing, frame, scale);
    drawing.texts.push_back({frame.sheet_width / 2, frame.sheet_height / 2 + scale, 3 * scale, Weight::normal,
                             "cut out along the dashed line"});
    return drawing;
}

}  // namespace tonemend
