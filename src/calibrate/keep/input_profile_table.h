#pragma once

#include <array>
#include <vector>

#include "calibrate/calibration.h"
#include "picture/frame.h"
#include "picture/lcms_instance.h"

namespace tonemend {

/// Writes the AToB0 table of input_profile. `light` is what each channel's codes mean by themselves.
void write_colour_table(const LcmsInstance& lcms, cmsHPROFILE profile, const Frame& frame,
                        const Calibration& calibration, const std::array<std::vector<double>, 3>& light);

}  // namespace tonemend
