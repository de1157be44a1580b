#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace tonemend {

/// What the repair was coloured with, next to the original, as far as its user knows.
enum class RepairColourants {
    same,   ///< more or less of the original's own
    earth,  ///< other earth and wood colourants
    other,  ///< colourants of any hue
};
inline constexpr std::size_t repair_colourants_count = 3;

/// "same", "earth", "other": on the command line and in files.
std::string_view name(RepairColourants colourants);
/// The way back; empty for any other word.
std::optional<RepairColourants> colourants_named(std::string_view word);

}  // namespace tonemend
