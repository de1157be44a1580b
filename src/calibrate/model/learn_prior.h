#pragma once

#include <vector>

#include "calibrate/model/characterisation_prior.h"
#include "colour/xyz.h"

namespace tonemend {

/// What one camera sees of a surface: working-space light (see ColourModel), and what is true.
struct SeenSurface {
    Vector3 working{};
    XYZ xyz;                                   ///< adapted to D50
    std::array<XYZ, stated_for_count> stated;  ///< the same under the light of each StatedFor; woods only
};

/// Two woods beside each other.
struct SeenPair {
    SeenSurface original, repair;
};

/// All that one camera sees under one lamp.
struct CameraSight {
    std::vector<SeenSurface> woods;   ///< its theta is learnt from these
    std::vector<SeenSurface> others;  ///< smooth reflectances that are no wood's
    std::array<std::vector<SeenPair>, repair_colourants_count> pairs;
};

/// Each camera's own theta is the least squares fit in ΔE2000 over its woods and, four times as heavy, the
/// differences of its pairs; with noise of 0.3 % in each channel, so that coefficients which gain nothing
/// over that noise stay small. At least two cameras.
FormPrior learn_form(const std::vector<CameraSight>& cameras, ModelForm form);

}  // namespace tonemend
