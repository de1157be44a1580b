#pragma once

#include <string>
#include <vector>

#include "calibrate/calibration.h"
#include "calibrate/card/find_card.h"
#include "calibrate/model/more_lights.h"
#include "measure/reading.h"

namespace tonemend {

/// A picture of the scene with the card in its frame, calibrated on it.
struct PictureUnderLight {
    const Frame* frame = nullptr;  ///< not owned
    FoundCard card;
    Calibration calibration;
    StatedLight light;
};

/// One region as pictures under several lights have it, light one first.
struct SeenRegion {
    SeenUnderLights seen;
    LightNoises noise;
    double shift_px = 0;  ///< the worst that registration leaves
};

/// The region of `first`, a reading of the first picture, read in the others. Throws InputError: see
/// match_region and read_region.
SeenRegion see_region(const std::vector<PictureUnderLight>& pictures, const Reading& first,
                      const std::string& role);

/// The card's coloured patches that every picture shows unclipped. One that has a spectrum is recomputed for
/// the first picture's light, others keep their colour under D50.
std::vector<KnownSurface> see_patches(const std::vector<PictureUnderLight>& pictures);

}  // namespace tonemend
