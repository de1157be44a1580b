#include "calibrate/preflight/exposure.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace tonemend {
namespace {

constexpr double least_white = 0.25;

}  // namespace

double recorded_white(const Calibration& calibration) {
    double white = 0;
    for (const ToneCurve& curve : calibration.curves) {
        const CurvePoint& top = curve.points().back();
        white = std::max(white, (top.seen - curve.offset()) / top.truth);
    }
    return white;
}

std::optional<Warning> warn_of_underexposure(const Calibration& calibration) {
    const double white = recorded_white(calibration);
    if (white >= least_white) return std::nullopt;
    return Warning{
        "underexposed",
        fmt::format("white would reach only {:.0f} % of the camera's range, {:.1f} stops under; expose "
                    "longer, or bring more light",
                    100 * white, -std::log2(std::max(white, 1e-4))),
        false};
}

}  // namespace tonemend
