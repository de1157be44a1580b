#pragma once

#include <optional>
#include <vector>

#include "calibrate/model/colour_sample.h"
#include "calibrate/model/repair_colourants.h"
#include "calibrate/model/stated_light.h"

namespace tonemend {

/// What a picture's user knows and neither the picture nor its card says. It goes with a calibration and with
/// each reading made by it, so that the reading can be made again.
struct StatedFacts {
    /// Code value of black in the picture's own numbers (0..255, 0..65535 or 0..1); absent: taken from the
    /// steps, or 0 with a single step.
    std::optional<double> black_level;
    /// The light, if its user knows it; absent: taken from a raw file's white, else unknown.
    std::optional<StatedLight> light;
    /// What the repair was coloured with; decides how far a camera may be wrong about the difference.
    RepairColourants colourants = RepairColourants::earth;
    /// Regions of known colour: they correct colours near theirs.
    std::vector<ColourSample> samples;
};

}  // namespace tonemend
