#pragma once

#include <array>
#include <memory>
#include <vector>

#include "live/box.h"
#include "live/gl_picture.h"
#include "live/screen_colours.h"

namespace tonemend {

/// Which of the pictures on the graphics card.
enum class Shown { now, before };

/// Where a picture goes and which part of it.
struct PicturePlace {
    Shown which = Shown::now;
    Box box;                            ///< of the window, framebuffer pixels from its top left corner
    double origin_x = 0, origin_y = 0;  ///< picture position at the box's top left corner
    double texels_per_pixel = 1;
};

/// The pictures of one drawing of the window. They lie under everything that is drawn by type and lines.
class PictureScreen {
  public:
    /// Needs the context of OpenGL.
    PictureScreen();
    void set_display(const ScreenColours& colours, const Shade& surround);
    /// Brings a frame to the graphics card; what is there already costs nothing. `calibration` may be null.
    void bring(Shown which, const std::shared_ptr<const Frame>& frame,
               const std::shared_ptr<const Calibration>& calibration);
    /// True when there is nothing to show.
    bool empty(Shown which) const { return part(which).picture.empty(); }
    int width(Shown which) const { return part(which).picture.width(); }
    int height(Shown which) const { return part(which).picture.height(); }

    void place(const PicturePlace& place, const OverlaySettings& overlay = {});
    /// Draws what was placed since the last drawing into the bound framebuffer of that height.
    void draw(int framebuffer_height);

  private:
    struct Part {
        GlPicture picture;
        std::shared_ptr<const Frame> frame;
        std::shared_ptr<const Calibration> calibration;
    };
    const Part& part(Shown which) const { return which == Shown::now ? now_ : before_; }

    GlPictureRenderer renderer_;
    Part now_, before_;
    struct Order {
        PicturePlace place;
        OverlaySettings overlay;
    };
    std::vector<Order> orders_;
};

}  // namespace tonemend
