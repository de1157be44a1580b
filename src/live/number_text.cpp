#include "live/number_text.h"

#include <fmt/format.h>

#include <cmath>

namespace tonemend {

std::string plain_text(double value) {
    const double rounded = std::round(10 * value) / 10;
    return fmt::format("{}{:.1f}", rounded < 0 ? "−" : "", std::abs(rounded));
}

std::string signed_number_text(double value) {
    return (std::round(10 * value) > 0 ? "+" : "") + plain_text(value);
}

}  // namespace tonemend
