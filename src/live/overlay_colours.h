#pragma once

#include <vector>

#include "colour/lab.h"
#include "colour/xyz.h"

namespace tonemend {

// The colours of the overlays, as XYZ (D50): they pass through the display's profile like the picture. Twin
// of shaders/overlay_colours.glsl.

/// A pixel that is not a number, infinite or has nothing to show: a neutral of L* 50.
XYZ no_value_colour();

/// For amounts: `t` 0..1, held at its ends, from dark blue (L* 22) to pale yellow (L* 92) along a straight
/// line in CIELAB, so that equal steps look equal and lightness alone orders them. Blue to yellow is the
/// direction that protan and deutan observers keep (the principle of Nuñez, Anderton, Renslow, PLoS ONE 13
/// (2018) e0199239; the line is our own).
XYZ amount_colour(double t);

/// For departures both ways: `t` −1..1, held at its ends, blue (L* 40) below, a pale neutral (L* 88) at 0,
/// orange-brown (L* 40) above.
XYZ departure_colour(double t);

/// Clipped pixels: vermilion at the top of the range, sky blue at the bottom (the two of Okabe and Ito's
/// palette for all kinds of colour vision that lie furthest apart; Color Universal Design, 2008).
XYZ clipped_bright_colour();
XYZ clipped_dark_colour();

XYZ ground_colour();  ///< amount_colour(0.85)
XYZ figure_colour();  ///< amount_colour(0.15)

/// One mark of a legend: what it stands for and its colour.
struct LegendStop {
    double value = 0;
    XYZ colour;
};

/// `count` ≥ 2 marks of the map of ΔE2000 from 0 to `span`.
std::vector<LegendStop> difference_legend(double span, int count);
/// `count` ≥ 3, odd: marks from −span to +span.
std::vector<LegendStop> departure_legend(double span, int count);

}  // namespace tonemend
