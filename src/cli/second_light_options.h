#pragma once

#include <array>
#include <string>
#include <vector>

#include "cli/calibration_options.h"
#include "cli/job/job_choice.h"
#include "measure/second_light.h"

namespace tonemend {

inline constexpr std::size_t most_lights = 3;

/// What is said of one of the pictures; empty: as in the first, or not known.
struct LightPictureOptions {
    std::string original, repair;  ///< regions
    std::string light, card_at, calibration;
    std::vector<std::string> flat;
};

/// What `tonemend second-light` asks.
struct SecondLightOptions {
    std::vector<std::string> pictures;  ///< two or three
    std::array<LightPictureOptions, most_lights> of;
    CalibrationOptions shared;  ///< what add_shared_options asks
    LightLimits limits;
    double tolerance = default_tolerance;
    bool json = false;
    std::string save_picture;
    JobChoice job;  ///< whose `job` is empty: the result is not kept
};

/// Adds them to `command`; `options` must outlive it. What is of one picture ends in its number: --light-2.
void add_second_light_options(CLI::App& command, SecondLightOptions& options);

}  // namespace tonemend
