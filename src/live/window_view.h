#pragma once

#include <vector>

#include "live/bench.h"
#include "live/display_profile.h"
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
    /// The pictures, which lie under all that draw() has drawn: into the bound framebuffer of that height.
    void draw_pictures(int framebuffer_height) { screen_.draw(framebuffer_height); }
    /// Changes to another display, or on it to the theme that the bench has now.
    void set_display(const ScreenColours& colours, ThemeName name);
    void perform(Action action, Bench& bench);
    const Theme& theme() const { return theme_; }

  private:
    void draw_left(Painter& painter, Bench& bench, const Layout& layout, float scale);
    void draw_page(Painter& painter, Bench& bench, const Layout& layout);
    void draw_known(Painter& painter, Bench& bench, const Layout& layout);
    void draw_column(Painter& painter, const Bench& bench, const Layout& layout);

    PicturePane picture_;
    PictureScreen screen_;
    ScreenColours colours_{make_srgb_display_table()};
    Theme theme_;
};

}  // namespace tonemend
