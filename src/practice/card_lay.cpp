#include "practice/card_lay.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "calibrate/card/homography.h"
#include "calibrate/flat/paper_spots.h"
#include "picture/input_error.h"
#include "practice/card_paint.h"
#include "practice/card_place.h"
#include "practice/random.h"

namespace tonemend {

namespace {

constexpr std::size_t paper = 0;
constexpr std::size_t toner = 1;
constexpr std::size_t between = 2;
constexpr std::size_t first_patch = 3;

const CardFrame& find_frame(const std::string& name) {
    std::string names;
    for (const CardFrame& frame : card_frames()) {
        if (frame.name == name) return frame;
        names += (names.empty() ? "" : ", ") + frame.name;
    }
    throw InputError(fmt::format("card frame '{}' does not exist; choose one of {}", name, names));
}

// Shifts the sheet so that its middle comes to lie where the options say.
void move_middle(const PracticeOptions& options, Quad& sheet) {
    const double x = *options.card_x * options.width, y = *options.card_y * options.height;
    const Point middle = middle_of(sheet);
    for (Point& corner : sheet) {
        corner = {corner.x + x - middle.x, corner.y + y - middle.y};
        if (corner.x < 0 || corner.y < 0 || corner.x > options.width || corner.y > options.height)
            throw InputError(
                fmt::format("practice picture: a card whose middle is at {:.2f},{:.2f} would hang out of the "
                            "picture; give a place nearer its middle",
                            *options.card_x, *options.card_y));
    }
}

}  // namespace

PlacedCard lay_card(const PracticeOptions& options) {
    PlacedCard placed;
    placed.card = read_card(locate_card(options.card));
    placed.paints = paint_card(placed.card);
    if (options.card_mount == CardMount::framed) placed.frame = find_frame(options.frame);
    Random random(options.seed, "card");
    const double across = random.uniform();
    const double down = random.uniform();
    const double rotation = random.uniform(-12, 12);
    const double tilt = random.uniform(0, 6);
    const double direction = random.uniform(0, 360);
    placed.rotation = options.rotation.value_or(rotation);
    placed.tilt = options.tilt.value_or(tilt);
    placed.tilt_direction = options.tilt_direction.value_or(direction);
    const auto part = [](int whole, double share) { return static_cast<int>(std::lround(whole * share)); };
    const PixelRect area{part(options.width, 0.02), part(options.height, 0.02), part(options.width, 0.96),
                         part(options.height, 0.44)};
    // A bare card has the shape of the medium frame's window.
    const CardFrame shape = placed.frame ? *placed.frame : find_frame("medium");
    const double width = placed.frame ? shape.sheet_width : shape.window_width;
    const double height = placed.frame ? shape.sheet_height : shape.window_height;
    placed.sheet = place_sheet(width, height, {placed.rotation, placed.tilt, placed.tilt_direction}, area,
                               (placed.frame ? 0.98 : 0.8) * options.faults.card_size, across, down);
    if (options.card_x && options.card_y) move_middle(options, placed.sheet);
    placed.corners = placed.sheet;
    if (placed.frame) {
        const Matrix3 to_picture = unit_square_to_quad(placed.sheet);
        const Quad window = window_quad(*placed.frame);
        for (std::size_t i = 0; i < 4; ++i)
            placed.corners[i] = map_point(to_picture, {window[i].x / width, window[i].y / height});
    }
    return placed;
}

SheetMap::SheetMap(const PlacedCard& card) {
    for (const Patch& patch : card.card.patches) patches_.push_back({patch.x0, patch.y0, patch.x1, patch.y1});
    if (!card.frame) return;
    const CardFrame& frame = *card.frame;
    width_ = frame.sheet_width;
    height_ = frame.sheet_height;
    window_ = {frame.window_x, frame.window_y, frame.window_x + frame.window_width,
               frame.window_y + frame.window_height};
    for (int index = 0; index < 4; ++index) {
        const Point corner = marker_corner(frame, index);
        const std::vector<FrameCell> cells = marker_cells(frame, index);
        Marker marker;
        marker.outline = {corner.x, corner.y, corner.x + frame.marker_side, corner.y + frame.marker_side};
        marker.cell = cells.front().side;
        marker.cells_across = static_cast<int>(std::lround(frame.marker_side / marker.cell));
        marker.black.assign(static_cast<std::size_t>(marker.cells_across * marker.cells_across), false);
        for (const FrameCell& cell : cells) {
            const auto column = std::lround((cell.x - corner.x) / marker.cell);
            const auto row = std::lround((cell.y - corner.y) / marker.cell);
            marker.black[static_cast<std::size_t>(row * marker.cells_across + column)] = true;
        }
        markers_.push_back(marker);
    }
}

std::size_t SheetMap::material_at(double u, double v) const {
    const double x = u * width_;
    const double y = v * height_;
    if (window_.holds(x, y)) {
        const double s = (x - window_.x0) / (window_.x1 - window_.x0);
        const double t = (y - window_.y0) / (window_.y1 - window_.y0);
        for (std::size_t i = 0; i < patches_.size(); ++i)
            if (patches_[i].holds(s, t)) return first_patch + i;
        return between;
    }
    for (const Marker& marker : markers_) {
        if (!marker.outline.holds(x, y)) continue;
        const int last = marker.cells_across - 1;
        const int column = std::min(last, static_cast<int>((x - marker.outline.x0) / marker.cell));
        const int row = std::min(last, static_cast<int>((y - marker.outline.y0) / marker.cell));
        return marker.black[static_cast<std::size_t>(row * marker.cells_across + column)] ? toner : paper;
    }
    return paper;
}

std::vector<Bands> card_materials(const PlacedCard& card) {
    std::vector<Bands> materials{paper_white(), toner_black(), card_board()};
    materials.insert(materials.end(), card.paints.begin(), card.paints.end());
    return materials;
}

}  // namespace tonemend
