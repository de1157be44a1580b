#include "practice/uptake.h"

#include <algorithm>
#include <cmath>

namespace tonemend {

double uptake(const WoodKind& wood, ColourantKind kind, const Application& application, double darkness) {
    const bool pigment = kind == ColourantKind::pigment;
    // Doubling the grit number halves the depth of a scratch; a soft even wood's pigment follows the root of
    // it.
    const double grit_power = pigment ? 0.1 + 0.4 * wood.softness : 0.02;
    const double scratches = std::pow(application.grit / 180, -grit_power);
    // What each further coat adds, relative to the coat before it.
    const double next_coat = pigment ? 0.25 : 0.55;
    const double coats = (1 - std::pow(next_coat, application.coats)) / (1 - next_coat);
    const double lodging = 1 + (pigment ? 0.5 : 0.05) * std::clamp(darkness, 0.0, 1.0);
    return scratches * coats * lodging / application.dilution;
}

}  // namespace tonemend
