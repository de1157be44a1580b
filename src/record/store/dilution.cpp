#include "record/store/dilution.h"

#include <fmt/format.h>

#include <charconv>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {

Dilution parse_dilution(const std::string& text) {
    Dilution dilution;
    const char* end = text.data() + text.size();
    const auto first = std::from_chars(text.data(), end, dilution.thinner);
    const bool joined = first.ec == std::errc() && first.ptr != end && *first.ptr == ':';
    const auto second = joined ? std::from_chars(first.ptr + 1, end, dilution.colourant) : first;
    const auto in_range = [](double parts) { return parts >= 0 && parts <= 1000; };
    if (!joined || second.ec != std::errc() || second.ptr != end || !in_range(dilution.thinner) ||
        !in_range(dilution.colourant) || dilution.colourant == 0)
        throw InputError(
            fmt::format("'{}' is no dilution; give parts of thinner to parts of colourant, such as 2:1, or "
                        "0:1 for undiluted",
                        one_line(text, 40)));
    return dilution;
}

}  // namespace tonemend
