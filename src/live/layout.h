#pragma once

#include <string>
#include <vector>

#include "live/box.h"

namespace tonemend {

/// What the window has to find room for.
struct LayoutRequest {
    float width = 1280, height = 720;  ///< framebuffer pixels
    float scale = 1;                   ///< pixels a point × the person's text scale
    int tools = 0;                     ///< controls under the picture
    int practice = 0;                  ///< controls of the practice bench; 0: that bench is off
};

/// Where everything stands, in framebuffer pixels. Nothing overlaps and everything lies inside the window,
/// down to 800 × 500 pixels at scale 2; below that boxes shrink but still keep apart.
struct Layout {
    float small = 0, body = 0, large = 0, huge = 0;  ///< type sizes
    float line = 0;                                  ///< height of a line of body type
    Box status;                                      ///< one line above the picture
    Box picture;
    std::vector<Box> practice, tools;
    Box verdict, move, vials, pair, trust;     ///< the right-hand column, top to bottom
    Box take, light, colourants, coats, undo;  ///< along the bottom; the second over the third
};

Layout lay_out(const LayoutRequest& request);

struct NamedBox {
    std::string name;
    Box box;
};
/// Every box by name, for the status line and for tests.
std::vector<NamedBox> named_boxes(const Layout& layout);

}  // namespace tonemend
