#pragma once

#include "live/bench.h"
#include "live/painter.h"
#include "live/picture_texture.h"
#include "live/view_transform.h"

namespace tonemend {

/// The picture in its box with the card, the patches that were read and the two regions; and what hands do
/// there.
class PicturePane {
  public:
    /// Brings the newest frame to the graphics card when there is one.
    void update(const Bench& bench);
    void draw(Painter& painter, const Box& box, const Bench& bench);
    /// The pointer over the picture: wheel zooms, drags move corners, regions or the picture. `scale` as in
    /// LayoutRequest.
    void handle_pointer(Bench& bench, float scale);
    /// True when the view took the action.
    bool perform(Action action, Bench& bench);
    const PictureTexture& texture() const { return texture_; }

  private:
    void draw_card(Painter& painter, const Bench& bench) const;
    void draw_region(Painter& painter, const Region& region, Role role, const Bench& bench) const;

    PictureTexture texture_;
    ViewTransform view_;
    std::shared_ptr<const Frame> shown_;
    bool panning_ = false;
    bool editing_ = false;
};

}  // namespace tonemend
