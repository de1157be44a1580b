#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "colour/lab.h"
#include "practice/scene.h"

namespace tonemend {

/// What one region truly is. All of it is spectral colour of the surface under the scene's lamp as if that
/// shone evenly: no fall-off, gloss, black level, lens or camera; adapted from the lamp's white to D50 by
/// Bradford; CIELAB against D50.
struct RegionTruth {
    PixelRect region;
    Lab lab;                    ///< of the mean XYZ of the region's own pixels
    Lab lab_wood;               ///< of the wood's long-run mean: an endless board of the same grain
    Lab ground;                 ///< of the long-run mean of the ground
    std::optional<Lab> figure;  ///< of the figure and pores; absent in a plain wood
    double figure_share = 0;    ///< long-run share of figure and pores, 0..1
};

struct Truth {
    RegionTruth original;
    RegionTruth repair;
    double de2000 = 0;       ///< between the two `lab`
    double de2000_wood = 0;  ///< between the two `lab_wood`
};

Truth truth(const PracticeScene& scene);

/// Truth and scene as JSON text, schema "tonemend.practice-truth/1".
std::string truth_json(const PracticeScene& scene, const Truth& truth);

}  // namespace tonemend
