#pragma once

#include <optional>

#include "colour/matrix3.h"
#include "measure/region_pixels.h"

namespace tonemend {

/// Wood as two populations of pixels: the ground, the lighter background that dye sets, and the figure, the
/// darker grain and pores that pigment sets.
struct GroundAndFigure {
    Vector3 ground{};         ///< mean calibrated linear RGB of the lighter population
    Vector3 figure{};         ///< of the darker one
    double figure_share = 0;  ///< of the used pixels, over 0
    Vector3 axis{};           ///< weights of the lightness axis, their sum 1
    double boundary = 0;  ///< axis · rgb of a pixel that is as likely ground as figure; figure lies below
};

/// Splits the used pixels along the region's own lightness axis (the first principal axis of their colours,
/// read as a lightness) with a mixture of two normal distributions fitted by expectation maximisation to a
/// histogram. Two populations are reported only when they are two: centres at least 1.5 lightness units and 2
/// pooled standard deviations apart (Ashman, Bird, Zepf 1994), the smaller at least 3 % of the pixels, and
/// the Bayesian information criterion, counted on `effective_samples`, in favour; otherwise the wood is plain
/// and nothing is returned. The populations are fitted on up to 100,000 pixels, evenly taken; the means are
/// over all of them.
std::optional<GroundAndFigure> split_ground_and_figure(const RegionPixels& pixels, double effective_samples);

}  // namespace tonemend
