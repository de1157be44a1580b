#pragma once

#include <array>

#include "advise/model/wood_look.h"
#include "measure/finish_on.h"
#include "measure/reading.h"

namespace tonemend {

/// The part of a reading's 95 % half widths that is its own, as a standard deviation: a third of them; the
/// rest is what the camera and the lamp get wrong in all readings alike, which falls out of a change. A
/// guess, since how much is common depends on card and lamp. At least 0.05.
double own_deviation(const std::array<double, 3>& u95);
/// Bare and finished readings of one place as a pair to learn the finish from.
FinishPair pair_of(const ReadLook& bare, const ReadLook& finished);
/// A reading's ground and figure; `u95`: half widths of its mean.
ReadLook look_of(const Reading& reading, const std::array<double, 3>& u95);

}  // namespace tonemend
