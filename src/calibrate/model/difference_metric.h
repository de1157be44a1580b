#pragma once

#include <Eigen/Core>

#include "colour/xyz.h"

namespace tonemend {

/// ΔE2000 around a colour as a linear form: for a small change d of `xyz` (D50), ΔE2000 is the length of
/// metric · d.
Eigen::Matrix3d difference_metric(const XYZ& xyz);

}  // namespace tonemend
