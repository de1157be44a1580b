#pragma once

#include "practice/scene.h"

namespace tonemend {

/// Lays the options' card in the upper half of the picture. Throws InputError: a card file that cannot be
/// used, an unknown frame.
PlacedCard lay_card(const PracticeOptions& options);

/// What a point of the card's sheet is made of: an index into card_materials().
class SheetMap {
  public:
    explicit SheetMap(const PlacedCard& card);
    /// `u`, `v` run 0..1 over the sheet from its top-left corner; must lie within.
    std::size_t material_at(double u, double v) const;

  private:
    struct Rect {
        double x0, y0, x1, y1;
        bool holds(double x, double y) const { return x >= x0 && x < x1 && y >= y0 && y < y1; }
    };
    struct Marker {
        Rect outline;
        double cell;
        int cells_across;
        std::vector<bool> black;
    };
    double width_ = 1, height_ = 1;
    Rect window_{0, 0, 1, 1};
    std::vector<Rect> patches_;
    std::vector<Marker> markers_;
};

/// Reflectances of paper, toner, the card between its patches, then the patches in order.
std::vector<Bands> card_materials(const PlacedCard& card);

}  // namespace tonemend
