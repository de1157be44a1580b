#pragma once

#include <nlohmann/json_fwd.hpp>

#include "calibrate/keep/json_part.h"
#include "calibrate/model/characterisation.h"

namespace tonemend {

/// A matrix as nine numbers, row by row.
nlohmann::ordered_json matrix_json(const Matrix3& matrix);
/// Entries within ±`most`. Throws InputError as JsonPart does.
Matrix3 to_matrix(const JsonPart& json, double most);

/// The characterisation as an object; numbers are exact.
nlohmann::ordered_json characterisation_json(const Characterisation& characterisation);
/// Throws InputError as JsonPart does; a model is refused that does not see white as white to 5 %.
Characterisation to_characterisation(const JsonPart& json);

}  // namespace tonemend
