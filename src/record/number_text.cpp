#include "record/number_text.h"

#include <fmt/format.h>

#include <cmath>

namespace tonemend {

std::string number_text(double value, Sign sign) {
    const double rounded = std::round(value * 10) / 10;
    const char* front = rounded < 0 ? "−" : sign == Sign::always && rounded > 0 ? "+" : "";
    return fmt::format("{}{:.1f}", front, std::abs(rounded));
}

std::string interval_text(double half_width) {
    return fmt::format("± {:.1f}", std::ceil(half_width * 10 - 1e-9) / 10);
}

}  // namespace tonemend
