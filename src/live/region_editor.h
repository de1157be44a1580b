#pragma once

#include <optional>
#include <vector>

#include "live/bench_state.h"

namespace tonemend {

enum class Role { original, repair, card };
enum class RegionShape { rectangle, polygon };

/// How hands mark the two regions, and a card that lies in no frame. Knows picture pixels only; whoever draws
/// asks it what to draw.
class RegionEditor {
  public:
    /// Corners stay within a picture of this size; regions that lie outside it are dropped.
    void set_picture(int width, int height);
    /// Takes regions over without a step to undo.
    void restore(const BenchRegions& regions) { regions_ = regions; }

    const BenchRegions& regions() const { return regions_; }
    /// Corners of a polygon that is being drawn, in order.
    const std::vector<Point>& unfinished() const { return unfinished_; }
    std::optional<Role> selected() const { return selected_; }
    RegionShape shape() const { return shape_; }
    bool linked() const { return linked_; }
    bool dragging() const { return grip_ != Grip::none; }

    /// Selects a mark; a region that is missing is made as a rectangle in its half of the picture, a card is
    /// drawn corner by corner.
    void select(Role role);
    void deselect();
    void next_shape();
    /// Linked regions move together.
    void toggle_linked() { linked_ = !linked_; }

    /// A hand goes down at `at`; corners and regions within `reach` picture pixels are taken hold of. False
    /// when there is nothing to do here, so that the picture may be moved instead.
    bool press(Point at, double reach);
    void drag(Point at);
    void release();
    /// Ends a polygon that is being drawn; with fewer than three corners, or one that crosses itself, it is
    /// given up.
    void finish_polygon();
    /// Moves the selected region (both when linked). False when none is selected.
    bool nudge(double dx, double dy);
    /// Makes the selected region larger or smaller about its middle.
    bool grow(double factor);
    /// How many changes undo can go back.
    std::size_t changes() const { return past_.size(); }
    /// Takes the selected mark away. False when none is selected, or it was not there.
    bool remove();
    /// Goes back one change. False when there is none.
    bool undo();

  private:
    enum class Grip { none, corner, whole, drawing };

    std::optional<Region>& region(Role role);
    /// What a hand holds goes back to where it was.
    void let_go();
    void remember() { past_.push_back(regions_); }
    bool draws_polygon() const { return selected_ == Role::card || shape_ == RegionShape::polygon; }
    bool take_hold(Role role, Point at, double reach);
    void move(Role role, double dx, double dy);
    Point inside(Point at) const;

    int width_ = 0, height_ = 0;
    BenchRegions regions_;
    std::vector<BenchRegions> past_;
    std::vector<Point> unfinished_;
    std::optional<Role> selected_;
    RegionShape shape_ = RegionShape::rectangle;
    bool linked_ = false;
    Grip grip_ = Grip::none;
    std::size_t corner_ = 0;
    Point anchor_;
    bool moved_ = false;
    BenchRegions before_;
};

/// True when the four corners are an upright rectangle, in order.
bool is_rectangle(const Region& region);

}  // namespace tonemend
