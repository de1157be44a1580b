#pragma once

#include <string>

#include "colour/lab.h"

namespace tonemend {

/// "L,a,b" as a colour of a surface. Throws InputError with `role` ("--lab") in its text: not three numbers,
/// L* not between 0 and 100, a* or b* beyond ±150.
Lab parse_lab(const std::string& text, const std::string& role);

}  // namespace tonemend
