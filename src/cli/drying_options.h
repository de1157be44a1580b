#pragma once

#include <optional>
#include <string>

#include "cli/calibration_options.h"
#include "measure/drying_kind.h"

namespace tonemend {

/// What `tonemend drying` is asked for.
struct DryingOptions {
    std::string source;  ///< a folder, or a live source as the window takes it
    std::string region;
    CalibrationOptions light;
    std::string kind = "unknown";
    std::optional<double> label_minutes;
    double every = 30;  ///< seconds between readings of a live source
    std::string log;
    bool follow = false, until_settled = false, json = false;
    int readings = 0;  ///< after so many new ones it ends; 0: no such limit
};

}  // namespace tonemend
