#pragma once

#include <optional>
#include <string>

#include "cli/calibration_options.h"
#include "cli/command_line.h"

namespace tonemend {

/// What a check of a saved calibration asks.
struct CheckOptions {
    std::string calibration;  ///< file of the calibration, which holds its control chart
    std::string picture;      ///< with the card and the check patch; empty: the chart is shown
    std::string region, lab;
    CalibrationOptions light;
    std::optional<double> warn_at, expire_at;  ///< ΔE2000
    bool restart = false, json = false;
};

/// Adds --region, --lab, --warn-at, --expire-at and --restart to `command`; `options` must outlive it.
void add_check_options(CLI::App& command, CheckOptions& options);

/// Reads the check patch if a picture is given, adds it to the chart, prints chart and state. `unfit` when
/// the calibration has expired. Throws InputError, and then the file is as it was.
ExitStatus check_calibration(const CheckOptions& options);

}  // namespace tonemend
