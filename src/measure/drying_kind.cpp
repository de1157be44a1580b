#include "measure/drying_kind.h"

#include <algorithm>

namespace tonemend {

const std::vector<DryingWait>& drying_waits() {
    using enum DryingKind;
    // Common practice, no source. The spread allows for thin and thick coats, cold and warm shops.
    static const std::vector<DryingWait> waits{
        {unknown, "unknown", "colourant of unknown kind", 40, 1.4},
        {dye_alcohol, "dye-alcohol", "dye in alcohol", 15, 0.8},
        {dye_water, "dye-water", "dye in water", 60, 0.8},
        {dye_oil, "dye-oil", "dye in oil or spirits", 60, 0.8},
        {fast_oil, "fast-oil", "fast-drying oil stain", 45, 0.8},
        {pigment_oil, "pigment-oil", "pigment stain in oil", 120, 0.8},
        {pigment_water, "pigment-water", "pigment stain in water", 45, 0.8},
        {glaze, "glaze", "glaze", 240, 0.8},
        {toner, "toner", "toner", 20, 0.8},
        {clear, "clear", "clear coat", 60, 0.8},
        {spirits, "spirits", "wet with mineral spirits", 30, 0.8},
    };
    return waits;
}

const DryingWait& wait_of(DryingKind kind) {
    return drying_waits()[static_cast<std::size_t>(kind)];
}

std::optional<DryingKind> find_drying_kind(std::string_view name) {
    const auto& waits = drying_waits();
    const auto found = std::find_if(waits.begin(), waits.end(),
                                    [name](const DryingWait& wait) { return wait.name == name; });
    if (found == waits.end()) return std::nullopt;
    return found->kind;
}

}  // namespace tonemend
