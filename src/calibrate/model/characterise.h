#pragma once

#include "calibrate/calibration.h"

namespace tonemend {

/// The characterisation of a calibration whose patches, curves and uncertainty are there: the camera's own
/// matrix, moved to what cameras do under the light if that is known (stated, or told by a raw file's white),
/// and fitted to the card's coloured patches. With an unknown light and no coloured patch the matrix stays as
/// it is and the doubt spans all lights.
Characterisation characterise(const Frame& frame, const Calibration& calibration,
                              const CalibrationInputs& inputs);

/// The light by which the card was taken, as a raw file's white before balancing tells it; nothing for
/// pictures that the camera has balanced.
std::optional<StatedLight> light_of_raw(const Frame& frame, const XYZ& white);

}  // namespace tonemend
