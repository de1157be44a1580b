#pragma once

#include "colour/matrix3.h"
#include "measure/block_grid.h"

namespace tonemend {

/// The mean of a region and how well it stands for the wood around it.
struct SampledMean {
    Vector3 mean{};                ///< calibrated linear RGB
    Vector3 spread{};              ///< standard deviation of the pixels
    Matrix3 covariance;            ///< of the mean: noise and grain, from a block bootstrap
    double effective_samples = 0;  ///< the number of independent pixels that would leave the same spread
};

/// Mean and its covariance over the blocks. Pixels of wood are tied to their neighbours, along the grain over
/// long distances, so whole blocks are resampled (Künsch 1989): squares of several sizes and strips across
/// the region both ways; the division whose blocks leave the mean the widest is the one that breaks the
/// fewest ties, and is taken. 400 resamples, always the same.
SampledMean sample_mean(const BlockGrid& blocks);

}  // namespace tonemend
