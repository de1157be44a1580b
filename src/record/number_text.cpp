#include "record/number_text.h"

#include <fmt/format.h>

#include <cmath>

namespace tonemend {

std::string number_text(double value, Sign sign) {
    const double rounded = std::round(value * 10) / 10;
    const char* front = rounded < 0 ? "−" : sign == Sign::always && rounded > 0 ? "+" : "";
    return fmt::format("{}{:.1f}", front, std::abs(rounded));
}

}  // namespace tonemend
