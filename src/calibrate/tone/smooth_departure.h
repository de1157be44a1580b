#pragma once

#include <array>
#include <vector>

#include "calibrate/tone/curve_point.h"

namespace tonemend {

/// A camera's tone curve as a smooth departure from sRGB's: e ↦ h(e), where e is what the picture says in
/// sRGB code (0..1), h(e) what it would say if the camera kept to sRGB, h(e) = e + e·(1 − e)·Σ cₖ·Tₖ(2e − 1),
/// four Chebyshev terms. Black and white stay where they are, as camera makers keep them; light is
/// (decode_srgb(h(e)) − black) / gain.
struct SmoothDeparture {
    double gain = 1;   ///< what the camera records for the perfect diffuser, linear
    double black = 0;  ///< what it records for no light at all, linear
    std::array<double, 4> c{};

    /// Light from the decoded linear value `seen`; 1 for the perfect diffuser.
    double light(double seen) const;
    /// True when light() rises everywhere between black and white.
    bool rises() const;
};

/// Fits gain, black and departure to six or more steps by least squares with the c held small, the more so
/// the faster their term swings. The hold is as weak as a rising curve allows; at its strongest the curve is
/// sRGB itself. Levenberg–Marquardt (Eigen).
SmoothDeparture fit_departure(const std::vector<CurvePoint>& points);

}  // namespace tonemend
