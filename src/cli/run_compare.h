#pragma once

#include <string>

#include "cli/calibration_options.h"
#include "cli/command_line.h"
#include "cli/further_lights.h"
#include "cli/job/job_choice.h"
#include "measure/verdict.h"

namespace tonemend {

/// What `tonemend compare` asks, and `tonemend job before` and `job after` with it.
struct CompareOptions {
    std::string picture, original, repair;
    CalibrationOptions light;
    FurtherLightOptions further;
    double tolerance = default_tolerance;
    std::string drying;  ///< log of the repair's drying
    bool json = false;
    std::string save_picture;
    JobChoice job;  ///< whose `job` is empty: the reading is not kept
    MissingJob missing_job = MissingJob::start;
    ReadingRole role = ReadingRole::during;
    bool without_picture = false;  ///< the job keeps no copy of the picture itself
};

/// All but the job; `options` must outlive the command.
void add_compare_options(CLI::App& command, CompareOptions& options);

/// Measures, keeps, prints. A reading that cannot be kept is printed all the same, before it throws.
ExitStatus run_compare(const CompareOptions& options);

}  // namespace tonemend
