#include "live/overlay_calibration.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace tonemend {

Vector3 CodeCurves::light_of(const Vector3& code) const {
    Vector3 rgb{};
    for (std::size_t c = 0; c < 3; ++c) {
        if (!std::isfinite(code[c])) {
            rgb[c] = std::numeric_limits<double>::quiet_NaN();
            continue;
        }
        const double at = std::clamp(code[c], 0.0, 1.0) * static_cast<double>(entries - 1);
        const std::size_t low = std::min(static_cast<std::size_t>(at), entries - 2);
        const double share = at - static_cast<double>(low);
        rgb[c] = (1 - share) * static_cast<double>(light[3 * low + c]) +
                 share * static_cast<double>(light[3 * (low + 1) + c]);
    }
    return rgb;
}

XYZ CodeCurves::xyz_of(const Vector3& light_rgb) const {
    return model.to_xyz(light_rgb);
}

CodeCurves make_code_curves(const ColourEncoding& encoding, const Calibration* calibration) {
    assert(encoding.decoding->separable());
    CodeCurves curves;
    curves.light.resize(3 * CodeCurves::entries);
    for (std::size_t i = 0; i < curves.light.size(); ++i)
        curves.light[i] =
            static_cast<float>(static_cast<double>(i / 3) / static_cast<double>(CodeCurves::entries - 1));
    encoding.decoding->decode(curves.light.data(), curves.light.data(), CodeCurves::entries);
    curves.model = ColourModel::of_matrix(encoding.to_xyz_d50);
    if (calibration) {
        for (std::size_t i = 0; i < curves.light.size(); ++i)
            curves.light[i] =
                static_cast<float>(calibration->curves[i % 3](static_cast<double>(curves.light[i])));
        curves.model = calibration->characterisation.model;
    }
    return curves;
}

}  // namespace tonemend
