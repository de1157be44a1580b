#pragma once

#include <optional>
#include <vector>

#include "colour/illuminant.h"
#include "colour/observer.h"

namespace tonemend {

/// CIE colour rendering indices: 100 is the reference light's rendering; poor lamps may fall under 0.
struct RenderingIndex {
    double Ra = 0;                ///< the general index, the mean of the first eight special ones
    std::vector<double> special;  ///< R1, R2, … one for each test colour given
    double kelvin = 0;            ///< the lamp's correlated colour temperature and the reference light's
};

/// The indices of `lamp` (relative power) by the test-colour method of CIE 13.3-1995, from the reflectances
/// of the test colours in their order (at least eight; asserted). The reference is the Planckian radiator
/// below 5000 K and the daylight phase from there on, summed over the lamp's wavelengths. Nothing when the
/// lamp has no correlated colour temperature.
std::optional<RenderingIndex> rendering_index(const Spectrum& lamp, const std::vector<Spectrum>& test_colours,
                                              const DaylightComponents& components, const Observer& observer);

}  // namespace tonemend
