#pragma once

#include "colour/lab.h"
#include "colour/matrix3.h"
#include "measure/glare.h"
#include "measure/ground_figure.h"

namespace tonemend {

// What the overlays show at one pixel, before any colour is chosen for it. Twin of shaders/overlays.glsl. A
// pixel whose code is not a number or infinite has no value and is kept out before these are asked.

/// True when all three are numbers and finite.
bool has_value(const Vector3& code);

enum class Clipping { none, dark, bright };

/// Bright when any channel sits at the top of its range, else dark when any sits at the bottom: the pixels
/// that a reading rejects.
Clipping clipping_of(const Vector3& code);

/// How far a pixel of calibrated light is on its way to being glare: 0 at the region's usual neutral part and
/// below, 1 where a reading rejects it, unbounded above. 0 for a pixel that is not brighter than the region.
double neutral_excess(const GlareGauge& gauge, const Vector3& light);

/// Light that changes evenly across the picture: luminance `level` at (x, y), picture pixels, and a relative
/// change a pixel.
struct LightPlane {
    double level = 1;
    double x = 0, y = 0;
    double slope_x = 0, slope_y = 0;
};

/// The luminance `Y` at (x, y) relative to the plane, minus 1: 0 on the plane, 0.1 for ten per cent more
/// light. 0 where the plane has no light (its value is 1e-6 or less).
double light_departure(const LightPlane& plane, double Y, double x, double y);

/// L* of the luminance `Y` (CIE 15:2018, 8.2.1) minus `level`.
double lightness_over(double level, double Y);

/// Ground or figure, as the reading split them.
struct FigureGauge {
    Vector3 axis{0.22, 0.72, 0.06};
    double boundary = 0;  ///< at 0 all is ground: plain wood
};

FigureGauge gauge_figure(const GroundAndFigure& split);
/// True for figure: axis · light lies below the boundary.
bool is_figure(const FigureGauge& gauge, const Vector3& light);

}  // namespace tonemend
