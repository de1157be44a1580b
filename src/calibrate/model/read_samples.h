#pragma once

#include "calibrate/calibration.h"

namespace tonemend {

/// The local correction of a calibration that is otherwise complete. Throws InputError: a sample outside the
/// picture, or too small to be read.
LocalCorrection read_samples(const Frame& frame, const Calibration& calibration,
                             const std::vector<ColourSample>& samples);

/// A warning `sample-disagrees` for each sample that was left out.
std::vector<Warning> warn_of_samples(const LocalCorrection& correction);

}  // namespace tonemend
