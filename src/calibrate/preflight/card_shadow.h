#pragma once

#include <optional>
#include <vector>

#include "calibrate/flat/paper_rim.h"
#include "calibrate/warning.h"

namespace tonemend {

/// By how much the paper departs from light that only slopes: brightest place over darkest, relative, means
/// over five spots each (25 mm); 0 with too few spots.
double unevenness_of_paper(const std::vector<PaperSpot>& spots);

/// "card-shadow": light on the card that does more than slope. A step in a shadow of s % reads s % too dark,
/// and so does the whole curve there: 3 % is 0.3 to 0.4 in L*.
std::optional<Warning> warn_of_shadow(const std::vector<PaperSpot>& spots);

}  // namespace tonemend
