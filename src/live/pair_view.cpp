#include "live/pair_view.h"

#include <algorithm>
#include <cmath>

namespace tonemend {
namespace {

// The middle of each region at one scale for both: as small as makes the smaller region fill its strip, and a
// camera pixel a screen pixel at the most.
double strip_texels(const Box& strip, const PixelRect& original, const PixelRect& repair) {
    const double wide = std::min(original.width, repair.width) / static_cast<double>(strip.width);
    const double high = std::min(original.height, repair.height) / static_cast<double>(strip.height);
    return std::min({1.0, wide, high});
}

void place_strip(PictureScreen& screen, const Box& strip, const PixelRect& region, double texels) {
    const double x = region.x + 0.5 * region.width, y = region.y + 0.5 * region.height;
    screen.place({Shown::now, strip, x - 0.5 * texels * static_cast<double>(strip.width),
                  y - 0.5 * texels * static_cast<double>(strip.height), texels});
}

// Black or white, whichever stands out of the swatch.
Shade ink_on(const Shade& swatch) {
    const Shade black{0, 0, 0}, white{255, 255, 255};
    return contrast(swatch, black) > contrast(swatch, white) ? black : white;
}

}  // namespace

void draw_pair(Painter& painter, PictureScreen& screen, const Box& box, const Comparison& comparison) {
    const float half = std::floor(0.5F * box.width);
    const float words = 1.35F * font_size(painter.fonts.small);
    const bool strips = box.height > 2.6F * words;
    const float strip_height = strips ? std::floor(0.45F * box.height) : 0;
    const Box left{box.x, box.y, half, box.height - strip_height};
    const Box right{box.x + half, box.y, box.width - half, left.height};
    const Shade a = painter.colours.shade_of(comparison.original.lab),
                b = painter.colours.shade_of(comparison.repair.lab);
    painter.fill(left, a);
    painter.fill(right, b);
    const float pad = 0.4F * words;
    painter.text({left.x + pad, left.y, left.width - 2 * pad, words}, "original", painter.fonts.small,
                 ink_on(a), Align::left, "pair original");
    painter.text({right.x + pad, right.y, right.width - 2 * pad, words}, "repair", painter.fonts.small,
                 ink_on(b), Align::right, "pair repair");
    if (!strips) return;
    const Box below_left{left.x, left.bottom(), left.width, strip_height};
    const Box below_right{right.x, right.bottom(), right.width, strip_height};
    const PixelRect original = bounds(comparison.original.region), repair = bounds(comparison.repair.region);
    const double texels = strip_texels(below_left, original, repair);
    place_strip(screen, below_left, original, texels);
    place_strip(screen, below_right, repair, texels);
}

}  // namespace tonemend
