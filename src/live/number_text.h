#pragma once

#include <string>

namespace tonemend {

/// One decimal, a true minus; a number that rounds to nothing has no sign.
std::string plain_text(double value);
/// The same with + before what is above zero.
std::string signed_number_text(double value);

}  // namespace tonemend
