#pragma once

#include "live/bench.h"
#include "live/painter.h"
#include "live/picture_screen.h"
#include "live/view_transform.h"

namespace tonemend {

/// The picture in its box, in the mode that is on, with the card, the patches that were read, the two regions
/// and the overlay's legend; and what hands do there.
class PicturePane {
  public:
    /// Places the pictures on `screen` and draws the marks over them.
    void draw(Painter& painter, PictureScreen& screen, const Box& box, const Bench& bench);
    /// The pointer over the picture: wheel zooms, drags move corners, regions, the wipe's edge or the
    /// picture. `scale` as in LayoutRequest.
    void handle_pointer(Bench& bench, float scale);
    /// True when the view took the action.
    bool perform(Action action, Bench& bench);

  private:
    void draw_whole(Painter& painter, PictureScreen& screen, const Bench& bench);
    void draw_pair(Painter& painter, PictureScreen& screen, const Bench& bench);
    void draw_wipe(Painter& painter, PictureScreen& screen, const Bench& bench);
    void draw_before_now(Painter& painter, PictureScreen& screen, const Bench& bench);
    /// The kept picture in `left` and the present one in `right`, each with its marks.
    void draw_both(Painter& painter, PictureScreen& screen, const Box& left, const Box& right,
                   const Bench& bench);
    void draw_now_marks(Painter& painter, const Bench& bench);
    void draw_before_marks(Painter& painter, const Box& part, const Bench& bench);
    void zoom(double factor, ScreenPoint at);
    float edge() const { return box_.x + wipe_ * box_.width; }

    Box box_;
    ViewTransform view_, before_view_;
    OverlaySettings overlay_;
    bool shown_ = false;    ///< there is a picture
    float wipe_ = 0.5F;     ///< the edge, as a share of the box's width
    double pair_zoom_ = 1;  ///< over the scale at which both regions fit
    enum class Hold { nothing, region, picture, edge };
    Hold hold_ = Hold::nothing;
};

}  // namespace tonemend
