#pragma once

#include "colour/lab.h"
#include "colour/xyz.h"
#include "live/overlay_math.h"

namespace tonemend {

/// One at a time lies over the picture.
enum class Overlay { none, difference, clipping, glare, evenness, figure, blend };

/// What the overlay is held against.
struct OverlaySettings {
    Overlay kind = Overlay::none;
    double strength = 1;          ///< 0 the picture alone … 1 the overlay alone, mixed in light
    Lab reference{50, 0, 0};      ///< the original's ground, D50
    double difference_span = 10;  ///< ΔE2000 at the end of the map
    double evenness_span = 0.2;   ///< relative light at the ends of the map
    double evenness_reach =
        1;  ///< side of the square whose mean light is taken, picture pixels: evens out the grain
    GlareGauge glare;
    LightPlane plane;
    FigureGauge figure;
    double blend_level = 50;  ///< L* of the repair
    double blend_span = 6;    ///< L* at the ends of the map
};

/// What is known of one pixel of the picture.
struct OverlayPixel {
    Clipping clipping = Clipping::none;
    Vector3 light{};      ///< calibrated linear RGB
    XYZ xyz;              ///< of `light`, D50
    double Y_around = 0;  ///< mean luminance of the square of `evenness_reach` around it
    double x = 0, y = 0;  ///< its middle, picture pixels
};

/// The colour to show for a pixel that has a value. Clipping is marked on the picture's luminance in grey.
/// Twin of shaders/overlay_pixel.glsl.
XYZ paint_overlay(const OverlaySettings& settings, const OverlayPixel& pixel);

/// ΔE2000 of a picture pixel against the reference: the number that the difference overlay colours.
double pixel_difference(const XYZ& xyz, const Lab& reference);

}  // namespace tonemend
