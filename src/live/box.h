#pragma once

namespace tonemend {

/// A rectangle of the window, in framebuffer pixels from its top-left corner.
struct Box {
    float x = 0, y = 0, width = 0, height = 0;

    float right() const { return x + width; }
    float bottom() const { return y + height; }
    float middle_x() const { return x + 0.5F * width; }
    float middle_y() const { return y + 0.5F * height; }
    bool empty() const { return width <= 0 || height <= 0; }
    bool holds(float px, float py) const { return px >= x && px < right() && py >= y && py < bottom(); }
    Box inset(float by) const { return {x + by, y + by, width - 2 * by, height - 2 * by}; }
};

/// True when the two share area.
inline bool overlap(const Box& a, const Box& b) {
    return !a.empty() && !b.empty() && a.x < b.right() && b.x < a.right() && a.y < b.bottom() &&
           b.y < a.bottom();
}

}  // namespace tonemend
