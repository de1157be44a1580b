#include "practice/camera_curve.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "colour/srgb_curve.h"

namespace tonemend {

CameraCurve::CameraCurve(double s_curve_strength) : strength_(s_curve_strength), table_{} {
    for (std::size_t i = 0; i < table_.size(); ++i) {
        const double root = static_cast<double>(i) / static_cast<double>(steps);
        table_[i] = static_cast<float>(encode_exactly(root * root));
    }
}

float CameraCurve::encode(float linear) const {
    const float place = std::sqrt(std::clamp(linear, 0.0F, 1.0F)) * static_cast<float>(steps);
    const auto index = static_cast<std::size_t>(place);
    const float rest = place - static_cast<float>(index);
    return table_[index] + rest * (table_[index + 1] - table_[index]);
}

double CameraCurve::encode_exactly(double linear) const {
    const double v = encode_srgb(std::clamp(linear, 0.0, 1.0));
    return v - strength_ * std::sin(2 * std::numbers::pi * v) / (2 * std::numbers::pi);
}

}  // namespace tonemend
