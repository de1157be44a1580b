#include "live/pair_view.h"

#include <algorithm>
#include <cmath>

#include "colour/srgb_display.h"

namespace tonemend {
namespace {

Shade shade_of(const Lab& lab) {
    const auto [r, g, b] = to_srgb8(lab);
    return {r, g, b};
}

// The middle of the strip at whole screen pixels a camera pixel where it is large enough, else stretched
// evenly.
void draw_strip(Painter& painter, const Box& box, const PictureTexture& strip) {
    if (strip.empty()) return;
    const float w = static_cast<float>(strip.width()), h = static_cast<float>(strip.height());
    const float scale = std::max({1.0F, box.width / w, box.height / h});
    const float u = 0.5F * std::min(1.0F, box.width / (scale * w)),
                v = 0.5F * std::min(1.0F, box.height / (scale * h));
    painter.list.AddImage(strip.id(), {box.x, box.y}, {box.right(), box.bottom()}, {0.5F - u, 0.5F - v},
                          {0.5F + u, 0.5F + v});
}

// Black or white, whichever stands out of the swatch.
Shade ink_on(const Shade& swatch) {
    const Shade black{0, 0, 0}, white{255, 255, 255};
    return contrast(swatch, black) > contrast(swatch, white) ? black : white;
}

}  // namespace

void draw_pair(Painter& painter, const Box& box, const Comparison& comparison, const PictureTexture& original,
               const PictureTexture& repair) {
    const float half = std::floor(0.5F * box.width);
    const float words = 1.35F * font_size(painter.fonts.small);
    const bool strips = box.height > 2.6F * words;
    const float strip_height = strips ? std::floor(0.45F * box.height) : 0;
    const Box left{box.x, box.y, half, box.height - strip_height};
    const Box right{box.x + half, box.y, box.width - half, left.height};
    const Shade a = shade_of(comparison.original.lab), b = shade_of(comparison.repair.lab);
    painter.fill(left, a);
    painter.fill(right, b);
    const float pad = 0.4F * words;
    painter.text({left.x + pad, left.y, left.width - 2 * pad, words}, "original", painter.fonts.small,
                 ink_on(a), Align::left, "pair original");
    painter.text({right.x + pad, right.y, right.width - 2 * pad, words}, "repair", painter.fonts.small,
                 ink_on(b), Align::right, "pair repair");
    if (!strips) return;
    draw_strip(painter, {left.x, left.bottom(), left.width, strip_height}, original);
    draw_strip(painter, {right.x, right.bottom(), right.width, strip_height}, repair);
}

}  // namespace tonemend
