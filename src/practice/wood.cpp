#include "practice/wood.h"

#include <cmath>

#include <fmt/format.h>

#include "picture/input_error.h"

namespace tonemend {

const std::vector<WoodKind>& wood_kinds() {
    static const std::vector<WoodKind> kinds{
        //  name     ground  decay  floor  red   depth share pores along across soft
        {"holly", 0.16, 95, 0.004, 0.00, 0.80, 0.00, 0.00, 12, 1.4, 0.8},
        {"pine", 1.00, 75, 0.010, 0.00, 0.75, 0.25, 0.00, 22, 2.2, 1.0},
        {"maple", 0.80, 85, 0.015, 0.00, 0.45, 0.00, 0.00, 14, 1.4, 0.7},
        {"birch", 0.90, 90, 0.015, 0.01, 0.50, 0.00, 0.00, 12, 1.5, 0.8},
        {"oak", 1.50, 90, 0.040, 0.00, 0.70, 0.30, 0.03, 18, 1.6, 0.2},
        {"ash", 1.10, 90, 0.035, 0.00, 0.65, 0.28, 0.03, 18, 1.6, 0.3},
        {"cherry", 2.20, 88, 0.030, 0.12, 0.45, 0.20, 0.01, 16, 1.5, 0.5},
        {"mahogany", 4.20, 95, 0.060, 0.45, 0.50, 0.30, 0.02, 14, 1.4, 0.4},
        {"walnut", 4.50, 130, 0.250, 0.15, 0.55, 0.35, 0.03, 18, 1.6, 0.3},
    };
    return kinds;
}

const WoodKind& find_wood(std::string_view name) {
    std::string names;
    for (const WoodKind& kind : wood_kinds()) {
        if (kind.name == name) return kind;
        names += (names.empty() ? "" : ", ") + kind.name;
    }
    throw InputError(
        fmt::format("wood '{}' is not known to the practice bench; choose one of {}", name, names));
}

Bands wood_k_over_s(const WoodKind& wood, double darkness) {
    const double scale = std::exp(wood.figure_depth * darkness);
    return make_bands([&](double nm) {
        const double lignin = wood.ground_k * std::exp((400 - nm) / wood.decay_nm);
        const double red_band = wood.redness * std::exp(-0.5 * std::pow((nm - 540) / 45, 2));
        return scale * (lignin + red_band + wood.floor_k);
    });
}

}  // namespace tonemend
