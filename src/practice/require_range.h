#pragma once

#include <optional>

namespace tonemend {

/// Throws InputError, naming the option and its range, unless low ≤ value ≤ high.
void require_range(const char* option, double value, double low, double high);
/// The same where there is a value.
void require_range(const char* option, const std::optional<double>& value, double low, double high);

}  // namespace tonemend
