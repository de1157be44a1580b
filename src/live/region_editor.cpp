#include "live/region_editor.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "picture/input_error.h"

namespace tonemend {
namespace {

constexpr double least_side = 8;  // the fewest pixels that a reading needs

Region box_region(Point one, Point other) {
    const auto [left, right] = std::minmax(one.x, other.x);
    const auto [top, bottom] = std::minmax(one.y, other.y);
    return {{{left, top}, {right, top}, {right, bottom}, {left, bottom}}};
}

bool within(const Region& region, Point at) {
    bool inside = false;
    const auto& corners = region.corners;
    for (std::size_t i = 0, j = corners.size() - 1; i < corners.size(); j = i++) {
        const Point a = corners[i], b = corners[j];
        if ((a.y > at.y) != (b.y > at.y) && at.x < (b.x - a.x) * (at.y - a.y) / (b.y - a.y) + a.x)
            inside = !inside;
    }
    return inside;
}

// The command line's own check: three corners, no crossing, some area.
bool usable(const Region& region) {
    std::string text;
    for (const Point& corner : region.corners) text += fmt::format("{},{} ", corner.x, corner.y);
    try {
        (void)parse_region(text, "region");
    } catch (const InputError&) {
        return false;
    }
    const PixelRect box = bounds(region);
    return box.width >= least_side && box.height >= least_side;
}

Role other_of(Role role) {
    return role == Role::original ? Role::repair : Role::original;
}

// Turned clockwise on the screen, where y points down; the first corner stays the first.
Region clockwise(Region drawn) {
    double area = 0;
    const auto& corners = drawn.corners;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const Point a = corners[i], b = corners[(i + 1) % corners.size()];
        area += a.x * b.y - b.x * a.y;
    }
    if (area < 0) std::reverse(drawn.corners.begin() + 1, drawn.corners.end());
    return drawn;
}

}  // namespace

bool is_rectangle(const Region& region) {
    const auto& c = region.corners;
    return c.size() == 4 && c[0].y == c[1].y && c[1].x == c[2].x && c[2].y == c[3].y && c[3].x == c[0].x;
}

void RegionEditor::set_picture(int width, int height) {
    if (width == width_ && height == height_) return;
    width_ = width, height_ = height;
    for (std::optional<Region>* each : {&regions_.original, &regions_.repair, &regions_.card})
        if (*each && !lies_inside(**each, width, height)) each->reset();
    past_.clear();
    grip_ = Grip::none;
    unfinished_.clear();
}

std::optional<Region>& RegionEditor::region(Role role) {
    return role == Role::original ? regions_.original
           : role == Role::repair ? regions_.repair
                                  : regions_.card;
}

void RegionEditor::let_go() {
    if (grip_ == Grip::none) return;
    regions_ = before_;
    grip_ = Grip::none;
}

void RegionEditor::select(Role role) {
    let_go();
    unfinished_.clear();
    selected_ = role;
    if (region(role) || width_ <= 0 || role == Role::card) return;
    remember();
    const double side = std::round(0.22 * std::min(width_, height_));
    const double x = std::round(width_ * (role == Role::original ? 0.25 : 0.75) - 0.5 * side);
    const double y = std::round(0.72 * height_ - 0.5 * side);
    region(role) = box_region({x, y}, {x + side, y + side});
}

void RegionEditor::deselect() {
    selected_.reset();
    unfinished_.clear();
    let_go();
}

void RegionEditor::next_shape() {
    shape_ = shape_ == RegionShape::rectangle ? RegionShape::polygon : RegionShape::rectangle;
    unfinished_.clear();
}

Point RegionEditor::inside(Point at) const {
    return {std::clamp(std::round(at.x), 0.0, static_cast<double>(width_)),
            std::clamp(std::round(at.y), 0.0, static_cast<double>(height_))};
}

bool RegionEditor::take_hold(Role role, Point at, double reach) {
    const std::optional<Region>& held = region(role);
    if (!held) return false;
    for (std::size_t i = 0; i < held->corners.size(); ++i) {
        const Point& corner = held->corners[i];
        if (std::hypot(corner.x - at.x, corner.y - at.y) > reach) continue;
        grip_ = Grip::corner, corner_ = i;
        return true;
    }
    if (!within(*held, at)) return false;
    grip_ = Grip::whole;
    return true;
}

bool RegionEditor::press(Point at, double reach) {
    moved_ = false;
    before_ = regions_;
    anchor_ = at;
    if (!unfinished_.empty()) {
        const Point& first = unfinished_.front();
        if (std::hypot(first.x - at.x, first.y - at.y) <= reach) {
            finish_polygon();
        } else {
            unfinished_.push_back(inside(at));
            if (selected_ == Role::card && unfinished_.size() == 4) finish_polygon();
        }
        return true;
    }
    for (const Role role : {selected_.value_or(Role::original), Role::original, Role::repair, Role::card}) {
        if (!take_hold(role, at, reach)) continue;
        selected_ = role;
        return true;
    }
    if (!selected_) return false;
    if (draws_polygon()) {
        unfinished_.push_back(inside(at));
    } else {
        grip_ = Grip::drawing;
        anchor_ = inside(at);
    }
    return true;
}

void RegionEditor::move(Role role, double dx, double dy) {
    std::optional<Region>& moved = region(role);
    if (!moved) return;
    double left = width_, top = height_, right = 0, bottom = 0;
    for (const Point& corner : moved->corners) {
        left = std::min(left, corner.x), right = std::max(right, corner.x);
        top = std::min(top, corner.y), bottom = std::max(bottom, corner.y);
    }
    const double by_x = std::clamp(std::round(dx), -left, width_ - right);
    const double by_y = std::clamp(std::round(dy), -top, height_ - bottom);
    for (Point& corner : moved->corners) corner.x += by_x, corner.y += by_y;
}

void RegionEditor::drag(Point at) {
    if (grip_ == Grip::none || !selected_) return;
    moved_ = moved_ || std::hypot(at.x - anchor_.x, at.y - anchor_.y) >= 1;
    if (!moved_) return;
    regions_ = before_;
    if (grip_ == Grip::whole) {
        move(*selected_, at.x - anchor_.x, at.y - anchor_.y);
        if (linked_ && selected_ != Role::card)
            move(other_of(*selected_), at.x - anchor_.x, at.y - anchor_.y);
    } else if (grip_ == Grip::drawing) {
        region(*selected_) = box_region(anchor_, inside(at));
    } else {
        Region& held = *region(*selected_);
        if (is_rectangle(held) && selected_ != Role::card) {
            held = box_region(held.corners[(corner_ + 2) % 4], inside(at));
        } else {
            held.corners[corner_] = inside(at);
        }
    }
}

void RegionEditor::release() {
    if (grip_ == Grip::none) return;
    grip_ = Grip::none;
    if (!moved_) return;
    if (!selected_ || !region(*selected_) || !usable(*region(*selected_))) {
        regions_ = before_;
        return;
    }
    past_.push_back(before_);
}

void RegionEditor::finish_polygon() {
    if (!selected_ || unfinished_.empty()) return;
    Region drawn{unfinished_};
    unfinished_.clear();
    if (!usable(drawn) || (selected_ == Role::card && drawn.corners.size() != 4)) return;
    remember();
    region(*selected_) = selected_ == Role::card ? clockwise(std::move(drawn)) : std::move(drawn);
}

bool RegionEditor::nudge(double dx, double dy) {
    let_go();
    if (!selected_ || !region(*selected_)) return false;
    remember();
    move(*selected_, dx, dy);
    if (linked_ && selected_ != Role::card) move(other_of(*selected_), dx, dy);
    return true;
}

bool RegionEditor::grow(double factor) {
    let_go();
    if (!selected_ || !region(*selected_)) return false;
    Region grown = *region(*selected_);
    const PixelRect box = bounds(grown);
    const Point middle{box.x + 0.5 * box.width, box.y + 0.5 * box.height};
    for (Point& corner : grown.corners)
        corner =
            inside({middle.x + factor * (corner.x - middle.x), middle.y + factor * (corner.y - middle.y)});
    if (!usable(grown)) return true;
    remember();
    region(*selected_) = std::move(grown);
    return true;
}

bool RegionEditor::remove() {
    let_go();
    if (!selected_ || !region(*selected_)) return false;
    remember();
    region(*selected_).reset();
    unfinished_.clear();
    return true;
}

bool RegionEditor::undo() {
    if (past_.empty()) return false;
    regions_ = past_.back();
    past_.pop_back();
    unfinished_.clear();
    grip_ = Grip::none;
    return true;
}

}  // namespace tonemend
