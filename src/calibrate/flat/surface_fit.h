#pragma once

#include <Eigen/Dense>
#include <array>
#include <vector>

#include "calibrate/flat/flat_samples.h"

namespace tonemend {

/// The logarithm of light at a sample's place, each channel, plus a constant that its material has.
struct LogSample {
    Point at;
    std::array<double, 3> log_light{};
    double u = 0;  ///< standard uncertainty, relative
    int material = 0, picture = 0;
    int cell = 0;  ///< index of the sample that it came from
};

/// A smooth surface through samples.
struct SurfaceFit {
    std::array<std::vector<double>, 3> terms;      ///< as in FlatField
    std::vector<double> doubt;                     ///< likewise
    std::vector<double> weights;                   ///< of the samples, 0 (left out) to 1
    std::vector<std::array<double, 3>> left;       ///< what is left of each sample, the log of a ratio
    std::array<std::vector<double>, 3> materials;  ///< constants
    double scale = 1;  ///< robust standard deviation of what is left, in units of the samples' u
};

enum class SurfacePrior {
    open,        ///< a sheet: the samples alone decide
    usual_lamps  ///< a few places: terms that they cannot tell stay near 0
};

/// Fits by iterated weights (Huber's, then Tukey's biweight; P. J. Huber, E. M. Ronchetti, "Robust
/// Statistics", 2009, 4.5 and 4.8), the weights common to the channels, so that dust, scratches and shadows
/// do not count. `held_out` samples, if any are marked, have weight 0 but their residuals are given. Pictures
/// of the card may each be off as a whole by what laying it down again costs.
SurfaceFit fit_surface(const std::vector<LogSample>& samples, int width, int height, int degree,
                       SurfacePrior prior, const std::vector<bool>& held_out = {});

}  // namespace tonemend
