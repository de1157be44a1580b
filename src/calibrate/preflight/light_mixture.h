#pragma once

#include <optional>
#include <vector>

#include "calibrate/flat/paper_rim.h"
#include "calibrate/warning.h"

namespace tonemend {

/// How the light's colour changes over the card frame.
struct HueSlope {
    double red = 0;   ///< relative change of red against green from one end of the sheet to the other
    double blue = 0;  ///< likewise of blue
    double u = 0;     ///< standard uncertainty of either
};

/// From planes through the paper's colour; nothing with too few spots.
std::optional<HueSlope> find_hue_slope(const std::vector<PaperSpot>& spots);

/// "light-mixed": lamps of two colours from two sides. One white cannot serve both regions: 1.5 % of blue
/// against green is 0.4 to 0.6 in b*.
std::optional<Warning> warn_of_mixture(const std::vector<PaperSpot>& spots);

}  // namespace tonemend
