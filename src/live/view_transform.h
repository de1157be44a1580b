#pragma once

#include "live/box.h"
#include "picture/geometry.h"

namespace tonemend {

/// A point of the window, in framebuffer pixels.
struct ScreenPoint {
    float x = 0, y = 0;
};

/// How the picture lies in its box: zoomed and panned, never stretched.
class ViewTransform {
  public:
    /// The picture's size in its own pixels and the box it is shown in. A changed size of either keeps a
    /// fitted picture fitted and a zoomed one where it is.
    void set(int picture_width, int picture_height, const Box& box);
    /// The whole picture as large as the box allows.
    void fit();
    /// One picture pixel on one screen pixel, the middle kept.
    void actual_size();
    /// Zooms by `factor` and keeps the picture point under `at` where it is. Between the fitted size and 16
    /// screen pixels a picture pixel.
    void zoom(double factor, ScreenPoint at);
    void pan(float dx, float dy);

    /// Shows `centre` in the middle at `scale` screen pixels a picture pixel, beyond the picture's edges too.
    void look_at(Point centre, double scale);
    /// Shows the same share of its own picture as `other` does of its, at the same size on the screen.
    void follow(const ViewTransform& other);

    ScreenPoint to_screen(Point picture) const;
    Point to_picture(ScreenPoint screen) const;
    /// Screen pixels a picture pixel.
    double scale() const { return scale_; }
    const Box& box() const { return box_; }

  private:
    double fitted_scale() const;
    void keep_in_box();

    int width_ = 1, height_ = 1;
    Box box_;
    bool fitted_ = true;
    double scale_ = 1;
    Point centre_;  ///< the picture point in the middle of the box
};

}  // namespace tonemend
