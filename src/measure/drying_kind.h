#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace tonemend {

/// What was put on, as far as drying cares.
enum class DryingKind {
    unknown,
    dye_alcohol,
    dye_water,
    dye_oil,
    fast_oil,
    pigment_oil,
    pigment_water,
    glaze,
    toner,
    clear,
    spirits,
};

/// A kind and how long it is usually left before its colour is judged. The label's own time comes first;
/// these are common practice, no source.
struct DryingWait {
    DryingKind kind = DryingKind::unknown;
    std::string name;    ///< as --kind takes it: "dye-alcohol"
    std::string what;    ///< for people: "dye in alcohol"
    double minutes = 0;  ///< usual wait
    double spread = 0;   ///< standard deviation of the natural logarithm of the true time about it
};

/// All kinds, `unknown` first.
const std::vector<DryingWait>& drying_waits();
const DryingWait& wait_of(DryingKind kind);
/// Nothing for a name that no kind has.
std::optional<DryingKind> find_drying_kind(std::string_view name);
/// What always goes with a wait that is shown.
inline constexpr std::string_view wait_origin = "the label's own time comes first; this is common practice";

}  // namespace tonemend
