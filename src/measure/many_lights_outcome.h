#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace tonemend {

/// What further lights do for a comparison.
struct ManyLightsOutcome {
    std::vector<std::string> lights;    ///< light one first
    std::vector<std::string> pictures;  ///< their files' names, in the same order
    std::size_t known_patches = 0;
    bool used = false;  ///< they help, and the comparison is made with them
    /// Half widths of ΔE2000 that come from the camera's colours and from uneven light, 95 %: with light one
    /// alone, with all lights, and with all were the light even to 0.3 %.
    double camera_u95_alone = 0, camera_u95_together = 0, camera_u95_possible = 0;
    double light_noise = 0;  ///< of either region's brightness under any light, relative, the worst
    double shift_px = 0;     ///< that registration leaves, the worst
};

}  // namespace tonemend
