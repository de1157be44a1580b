#pragma once

#include <string>

namespace tonemend {

/// A name that no other record has, anywhere: UUID version 7 (RFC 9562, 5.7), 36 characters in small letters.
/// Those of one process sort in the order in which they were made.
std::string new_uid();

}  // namespace tonemend
