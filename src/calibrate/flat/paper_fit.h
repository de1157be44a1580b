#pragma once

#include <functional>
#include <vector>

#include "calibrate/flat/paper_rim.h"

namespace tonemend {

/// Least squares over the spots of the card frame's paper: a plane over the picture and whatever else may
/// explain a value of theirs.
struct PaperFit {
    std::vector<double> coefficients;  ///< constant, x and y (a picture pixel), then the extra terms in order
    std::vector<double> residuals;     ///< a spot each
    double squares = 0;                ///< sum of the residuals' squares
};

using SpotValue = std::function<double(const PaperSpot&)>;

/// Fits `value` (often a logarithm: then residuals are relative). There must be more spots than terms.
PaperFit fit_paper(const std::vector<PaperSpot>& spots, const SpotValue& value,
                   const std::vector<SpotValue>& extra = {});

/// Natural logarithm of a spot's brightness.
double log_brightness(const PaperSpot& spot);

/// The least number of spots from which anything is told of the light.
inline constexpr std::size_t least_paper_spots = 40;

}  // namespace tonemend
