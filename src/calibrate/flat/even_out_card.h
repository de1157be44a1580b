#pragma once

#include "calibrate/calibration.h"

namespace tonemend {

/// Finds the flat field by what `inputs` hold, 1 at the card's middle, and fits the curves anew with each
/// patch under the light that it has there: field and curves need each other, so both are made three times.
/// Without flat pictures nothing changes. `found` is null for a bare card, whose place then has no paper to
/// tell of it. Throws InputError: flat pictures of another size, and as fit_flat_field and fit_curves.
void even_out_card(const Frame& frame, const FoundCard* found, const CalibrationInputs& inputs,
                   Calibration& calibration);

/// The way from the frame's linear light to evened-out light; empty without a flat field.
EvenOut even_light(const Calibration& calibration);

}  // namespace tonemend
