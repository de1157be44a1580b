#pragma once

#include <string>

namespace tonemend {

/// For CLI11: empty when `text` is a ΔE2000 from 0.05 to 20, else what is wrong, and the cure.
std::string check_tolerance(const std::string& text);

}  // namespace tonemend
