#include "practice/finish.h"

#include <cmath>

namespace tonemend {

Bands under_clear_coat(const Bands& reflectance, const ClearCoat& coat) {
    Bands seen{};
    for (std::size_t i = 0; i < band_count; ++i) {
        const double density = coat.amber * std::exp((400 - band_nm(i)) / 60);
        const double below = reflectance[i] * std::pow(10.0, -2 * density);
        const double k1 = coat.external_reflection;
        const double k2 = coat.internal_reflection;
        seen[i] = (1 - k1) * (1 - k2) * below / (1 - k2 * below);
    }
    return seen;
}

}  // namespace tonemend
