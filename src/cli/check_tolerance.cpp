#include "cli/check_tolerance.h"

#include <fmt/format.h>

#include <charconv>

#include "picture/text_line.h"

namespace tonemend {

std::string check_tolerance(const std::string& text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool sound = error == std::errc{} && end == text.data() + text.size();
    if (sound && value >= 0.05 && value <= 20.0) return "";
    return fmt::format("'{}' is not a number from 0.05 to 20; write it like 1.0, with a point",
                       one_line(text, 40));
}

}  // namespace tonemend
