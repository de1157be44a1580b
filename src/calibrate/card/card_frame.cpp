#include "calibrate/card/card_frame.h"

#include "calibrate/card/detect_markers.h"

namespace tonemend {
namespace {

/// White paper outside the markers: their quiet zone, and room for the scissors.
constexpr double margin = 8;

CardFrame make_frame(const std::string& name, double width, double height, double marker, double gap,
                     int first_id) {
    CardFrame frame;
    frame.name = name;
    frame.window_width = width;
    frame.window_height = height;
    frame.marker_side = marker;
    frame.marker_gap = gap;
    frame.first_id = first_id;
    frame.window_x = frame.window_y = margin + marker + gap;
    frame.sheet_width = width + 2 * frame.window_x;
    frame.sheet_height = height + 2 * frame.window_y;
    return frame;
}

}  // namespace

const std::vector<CardFrame>& card_frames() {
    // The largest still prints on A4 and on Letter paper, landscape.
    static const std::vector<CardFrame> frames = {make_frame("small", 60, 40, 24, 4, 200),
                                                  make_frame("medium", 100, 70, 30, 4.5, 204),
                                                  make_frame("large", 150, 100, 36, 5, 208)};
    return frames;
}

Point marker_corner(const CardFrame& frame, int index) {
    const bool right = index == 1 || index == 2;
    const bool bottom = index >= 2;
    const double before = frame.marker_gap + frame.marker_side;
    return {right ? frame.window_x + frame.window_width + frame.marker_gap : frame.window_x - before,
            bottom ? frame.window_y + frame.window_height + frame.marker_gap : frame.window_y - before};
}

std::vector<FrameCell> marker_cells(const CardFrame& frame, int index) {
    const std::vector<bool> black = marker_pattern(frame.first_id + index);
    const Point corner = marker_corner(frame, index);
    const double side = frame.marker_side / marker_cells_across;
    std::vector<FrameCell> cells;
    for (int row = 0; row < marker_cells_across; ++row)
        for (int column = 0; column < marker_cells_across; ++column)
            if (black[static_cast<std::size_t>(row * marker_cells_across + column)])
                cells.push_back({corner.x + column * side, corner.y + row * side, side});
    return cells;
}

Quad window_quad(const CardFrame& frame) {
    const double left = frame.window_x;
    const double top = frame.window_y;
    const double right = left + frame.window_width;
    const double bottom = top + frame.window_height;
    return {Point{left, top}, Point{right, top}, Point{right, bottom}, Point{left, bottom}};
}

}  // namespace tonemend
