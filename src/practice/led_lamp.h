#pragma once

#include "practice/bands.h"

namespace tonemend {

/// A white LED: a blue peak at 452 nm and a broad phosphor (550 nm for cool ones, 600 nm for warm) in the
/// ratio that gives the correlated colour temperature, 2500..7000 K, to 1 K. Relative power. A simple model
/// of our own.
Bands led_lamp(double kelvin);

}  // namespace tonemend
