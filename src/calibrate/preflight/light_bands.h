#pragma once

#include <optional>
#include <vector>

#include "calibrate/flat/paper_rim.h"
#include "calibrate/warning.h"

namespace tonemend {

/// A wave of brightness over the picture's rows or columns.
struct LightBands {
    double swing = 0;      ///< peak to peak, relative
    double period = 0;     ///< picture pixels from band to band
    double explained = 0;  ///< share (0..1) of what a slope leaves unexplained on the paper
    bool in_rows = true;   ///< else in columns: the camera stood upright
};

/// The wave that explains the paper best, of those that pass at least nine tenths of a period over the sheet
/// and are no shorter than three spots; nothing with too few spots. A single slow wave cannot be told from a
/// bend of the light.
std::optional<LightBands> find_bands(const std::vector<PaperSpot>& spots);

/// "light-banded": lamps that flicker with the mains, seen row after row by a rolling shutter. What two
/// regions get differs by up to the swing: 2 % is 0.24 ΔE2000.
std::optional<Warning> warn_of_bands(const std::vector<PaperSpot>& spots);

}  // namespace tonemend
