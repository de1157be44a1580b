#pragma once

#include <optional>
#include <vector>

#include "calibrate/card/card.h"
#include "calibrate/tone/patch_reading.h"
#include "calibrate/warning.h"

namespace tonemend {

/// The blur of the card: standard deviation as a share of a patch's side, from how steeply linear light
/// changes across the patches' edges (a Gaussian edge changes by contrast ÷ (σ√(2π)) a unit of length); the
/// median of the edges that have contrast. Blur over 0.08
/// comes out too small, as a profile ends 18 % of a side beyond its edge. Nothing when there are fewer than
/// four. Patches that touch nothing else than their like, or whose edges lie far outside the rectangles in
/// the card file, have none.
std::optional<double> measure_blur(const Frame& frame, const Card& card, const Quad& corners);

/// "card-blurred": blur over a twentieth of a patch's side. The outer 15 % of a patch, three such deviations,
/// are not read; at 0.08 the mean of a dark step already holds several per cent of its surroundings' light.
std::optional<Warning> warn_of_blur(const Frame& frame, const Card& card, const Quad& corners);

}  // namespace tonemend
