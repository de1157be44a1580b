#include "cli/lab_text.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {

Lab parse_lab(const std::string& text, const std::string& role) {
    const auto refuse_lab = [&](const char* what) {
        throw InputError(
            fmt::format("{} '{}': {}; give L*,a*,b* with points and no blanks, for example 52.3,14.1,27.8",
                        role, one_line(text, 60), what));
    };
    std::array<double, 3> values{};
    const char* at = text.data();
    const char* const end = text.data() + text.size();
    for (std::size_t i = 0; i < 3; ++i) {
        const auto [stop, error] = std::from_chars(at, end, values[i]);
        const bool sound = error == std::errc{} && std::isfinite(values[i]) &&
                           (i < 2 ? stop != end && *stop == ',' : stop == end);
        if (!sound) refuse_lab("is not three numbers");
        at = stop + (i < 2 ? 1 : 0);
    }
    if (values[0] < 0 || values[0] > 100) refuse_lab("L* lies between 0 and 100");
    if (std::abs(values[1]) > 150 || std::abs(values[2]) > 150) refuse_lab("a* and b* lie within ±150");
    return {values[0], values[1], values[2]};
}

}  // namespace tonemend
