#pragma once

#include <vector>

#include "calibrate/calibration.h"
#include "calibrate/model/fit_model.h"

namespace tonemend {

/// The coloured patches of a card as they enter the fit.
struct KnownPatches {
    StatedFor stated = StatedFor::d50;
    std::vector<KnownPatch> patches;
};

/// CIELAB of a reflectance under the light, adapted from its white to D50 (Bradford).
Lab lab_under(const Spectrum& reflectance, const StatedLight& light);

/// The coloured patches that are not clipped. When all of them have spectra and `light` is known they are
/// recomputed for it; else they keep their colour under D50. A spectrum that rises from blue to red is taken
/// as a wood's, any other as not: what no model explains is then larger.
KnownPatches known_patches(const Calibration& calibration, const FormPrior& prior,
                           const std::optional<StatedLight>& light);

}  // namespace tonemend
