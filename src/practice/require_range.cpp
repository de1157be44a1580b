#include "practice/require_range.h"

#include <fmt/format.h>

#include "picture/input_error.h"

namespace tonemend {

void require_range(const char* option, double value, double low, double high) {
    if (!(value >= low && value <= high))
        throw InputError(fmt::format("practice picture: {} is {}; give {} to {}", option, value, low, high));
}

void require_range(const char* option, const std::optional<double>& value, double low, double high) {
    if (value) require_range(option, *value, low, high);
}

}  // namespace tonemend
