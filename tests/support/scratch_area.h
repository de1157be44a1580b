#pragma once

#include <filesystem>
#include <memory>

#include "record/store/area_readings.h"

namespace tonemend::testing {

/// The standing area of a store in `folder`; nothing is made before the first reading.
inline std::shared_ptr<AreaReadings> area_in(const std::filesystem::path& folder) {
    return std::make_shared<AreaReadings>(AreaChoice{{folder / "jobs.sqlite", {}}, "", "Bench"});
}

}  // namespace tonemend::testing
