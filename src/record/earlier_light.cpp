#include "record/earlier_light.h"

#include <fmt/format.h>

namespace tonemend {

std::vector<Warning> warn_of_other_light(int number, const std::optional<PictureLight>& then,
                                         const PictureLight& now) {
    if (!then) return {};
    std::vector<Warning> warnings = compare_light(*then, now);
    for (Warning& warning : warnings)
        warning.text = fmt::format("not as in reading {}: {}", number, warning.text);
    return warnings;
}

}  // namespace tonemend
