#pragma once

#include <string>
#include <vector>

#include "cli/calibration_options.h"
#include "measure/comparison.h"

namespace tonemend {

/// Pictures of the same scene under one or two further lights.
struct FurtherLightOptions {
    std::vector<std::string> pictures;  ///< LIGHT=PICTURE
    std::vector<std::string> flat;      ///< a flat picture for each of them, in their order; or none
};

/// Adds --also-under and --also-flat to `command`; `options` must outlive it.
void add_further_light_options(CLI::App& command, FurtherLightOptions& options);

/// compare_under_lights with the further pictures calibrated as the first one. Throws InputError: an option
/// that cannot be read, no --light for the first picture, --card-at, a picture without a card frame, and as
/// compare_under_lights.
Comparison compare_under_further_lights(const Frame& frame, const Calibration& calibration,
                                        const CalibrationOptions& first, const FurtherLightOptions& further,
                                        const Region& original, const Region& repair, double tolerance);

}  // namespace tonemend
