#include "live/overlay_pixel.h"

#include "colour/difference.h"
#include "live/overlay_colours.h"

namespace tonemend {
namespace {

XYZ overlay_colour(const OverlaySettings& settings, const OverlayPixel& pixel) {
    switch (settings.kind) {
        case Overlay::none:
            break;
        case Overlay::difference:
            return amount_colour(pixel_difference(pixel.xyz, settings.reference) / settings.difference_span);
        case Overlay::clipping:
            if (pixel.clipping == Clipping::bright) return clipped_bright_colour();
            if (pixel.clipping == Clipping::dark) return clipped_dark_colour();
            return {d50_icc.X * pixel.xyz.Y, d50_icc.Y * pixel.xyz.Y, d50_icc.Z * pixel.xyz.Y};
        case Overlay::glare:
            return amount_colour(neutral_excess(settings.glare, pixel.light));
        case Overlay::evenness:
            return departure_colour(light_departure(settings.plane, pixel.Y_around, pixel.x, pixel.y) /
                                    settings.evenness_span);
        case Overlay::figure:
            return is_figure(settings.figure, pixel.light) ? figure_colour() : ground_colour();
        case Overlay::blend:
            return departure_colour(lightness_over(settings.blend_level, pixel.Y_around) /
                                    settings.blend_span);
    }
    return pixel.xyz;
}

}  // namespace

double pixel_difference(const XYZ& xyz, const Lab& reference) {
    return ciede2000(reference, to_lab(xyz, d50_icc)).value;
}

XYZ paint_overlay(const OverlaySettings& settings, const OverlayPixel& pixel) {
    const XYZ over = overlay_colour(settings, pixel);
    const double s = settings.strength;
    return {pixel.xyz.X + s * (over.X - pixel.xyz.X), pixel.xyz.Y + s * (over.Y - pixel.xyz.Y),
            pixel.xyz.Z + s * (over.Z - pixel.xyz.Z)};
}

}  // namespace tonemend
