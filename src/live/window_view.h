#pragma once

#include <vector>

#include "live/bench.h"
#include "live/fonts.h"
#include "live/layout.h"
#include "live/picture_pane.h"

namespace tonemend {

/// The whole screen: asks the bench what there is and draws it; passes on what hands did.
class WindowView {
  public:
    /// The layout's request for a window of this size, in framebuffer pixels, and `scale` pixels a point.
    static LayoutRequest request(const Bench& bench, float width, float height, float scale);
    /// Brings new pictures to the graphics card.
    void update(const Bench& bench);
    /// Between ImGui's NewFrame and Render. Returns the names of texts that did not fit.
    std::vector<std::string> draw(Bench& bench, const Layout& layout, const Fonts& fonts, float scale);
    void perform(Action action, Bench& bench);

  private:
    void draw_left(Painter& painter, Bench& bench, const Layout& layout, float scale);
    void draw_page(Painter& painter, Bench& bench, const Layout& layout);
    void draw_column(Painter& painter, const Bench& bench, const Layout& layout);

    PicturePane picture_;
    PictureTexture original_strip_, repair_strip_;
    std::uint64_t strips_of_ = 0;
};

}  // namespace tonemend
