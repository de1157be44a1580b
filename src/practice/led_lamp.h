#pragma once

#include "calibrate/model/led_light.h"
#include "practice/bands.h"

namespace tonemend {

/// led_light on the bench's grid.
Bands led_lamp(double kelvin, const LedShape& shape = {});

}  // namespace tonemend
