#pragma once

#include <nlohmann/json_fwd.hpp>

#include "calibrate/keep/json_part.h"
#include "picture/frame.h"

namespace tonemend {

/// How samples relate to light: in words, as a matrix, and as an ICC profile in base 64 (RFC 4648).
nlohmann::ordered_json encoding_json(const ColourEncoding& encoding);
/// The matrix is exact, the decoding as good as encoding_profile. Throws InputError as JsonPart does.
ColourEncoding to_encoding(const JsonPart& json);

}  // namespace tonemend
