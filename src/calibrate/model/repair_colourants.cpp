#include "calibrate/model/repair_colourants.h"

#include <algorithm>
#include <array>

namespace tonemend {
namespace {

constexpr std::array<std::string_view, repair_colourants_count> names{"same", "earth", "other"};

}  // namespace

std::string_view name(RepairColourants colourants) {
    return names[static_cast<std::size_t>(colourants)];
}

std::optional<RepairColourants> colourants_named(std::string_view word) {
    const auto* const found = std::find(names.begin(), names.end(), word);
    if (found == names.end()) return std::nullopt;
    return static_cast<RepairColourants>(found - names.begin());
}

}  // namespace tonemend
