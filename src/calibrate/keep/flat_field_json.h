#pragma once

#include <nlohmann/json_fwd.hpp>

#include "calibrate/flat/flat_field.h"

namespace tonemend {

/// The flat field with exact numbers; calibration/README.md describes its keys.
nlohmann::ordered_json flat_field_json(const FlatField& field);

/// The way back. Throws InputError without a name ahead: keys missing or of another kind, numbers that are no
/// finite numbers or not as many as the degree wants, a light that changes by more than a picture's ever
/// does.
FlatField to_flat_field(const nlohmann::ordered_json& json);

}  // namespace tonemend
