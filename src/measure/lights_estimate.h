#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <vector>

#include "calibrate/model/more_lights.h"
#include "measure/seen_region.h"

namespace tonemend {

/// Two regions' colours under light one as the first so many lights tell them. Covariances hold what the
/// camera's colours, uneven light and the steps leave open; grain and noise of the pixels are not in them.
struct LightsEstimate {
    XYZ original, repair;                                    ///< D50
    Eigen::Matrix3d original_covariance, repair_covariance;  ///< of XYZ
    Eigen::Matrix3d difference_covariance;                   ///< of XYZ, repair minus original
    double de2000_u = 0;                                     ///< standard uncertainty of ΔE2000
};

/// `cameras` is what cameras in general see under the lights, `known` what this one sees of known surfaces.
LightsEstimate estimate(const std::vector<std::vector<KnownSurface>>& cameras,
                        const std::vector<KnownSurface>& known, const SeenRegion& original,
                        const SeenRegion& repair, std::size_t lights);

}  // namespace tonemend
