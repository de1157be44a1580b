#pragma once

#include <vector>

#include "measure/second_light.h"

namespace tonemend {

/// What speaks against telling anything from these two lights; none makes a reading unfit.
///
/// "lights-alike": they are known, and `change.unlikeness` is under `least_unlikeness`. "lights-unknown":
/// what either is, neither its user nor its picture says. "light-not-as-stated": a raw file's white differs
/// from the stated temperature by more than 60 per megakelvin, 4500 K for 6200 K: swapped pictures, most
/// likely.
std::vector<Warning> warn_of_lights(const PairUnderOne& first, const PairUnderOne& second,
                                    const LightChange& change);

}  // namespace tonemend
