#pragma once

#include "calibrate/calibration.h"

namespace tonemend {

/// Adds what speaks against the flat field in this picture: `lamp-moved` when the paper beside the card still
/// shows a slope after evening out, or the card is lighter or darker for its exposure than when the field was
/// made; `flat-differs` when camera, encoding, aperture, white balance or (for the card at several places)
/// exposure are not those of the flat pictures. Nothing without a flat field.
void warn_of_flat_field(const Frame& frame, Calibration& calibration, const CalibrationInputs& inputs);

}  // namespace tonemend
