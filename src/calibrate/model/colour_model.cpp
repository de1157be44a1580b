#include "calibrate/model/colour_model.h"

#include <algorithm>
#include <cmath>

#include "colour/rgb_space.h"

namespace tonemend {

Vector3 root_terms(const Vector3& working) {
    const auto& [r, g, b] = working;
    return {std::sqrt(std::max(r * g, 0.0)), std::sqrt(std::max(g * b, 0.0)),
            std::sqrt(std::max(r * b, 0.0))};
}

XYZ ModelChange::of(const Vector3& working) const {
    const Vector3 straight = linear * working, bent = roots * root_terms(working);
    return {straight[0] + bent[0], straight[1] + bent[1], straight[2] + bent[2]};
}

ColourModel ColourModel::of_matrix(const Matrix3& to_xyz_d50) {
    static const Matrix3 from_working = rgb_to_xyz_d50(romm_rgb), to_working = inverse(from_working);
    return {to_working * to_xyz_d50, {from_working, {}}};
}

Vector3 calibrated_rgb(const ColourModel& model, const XYZ& xyz) {
    Vector3 rgb = inverse(model.matrix()) * Vector3{xyz.X, xyz.Y, xyz.Z};
    if (model.is_matrix()) return rgb;
    for (double& value : rgb) value = std::max(value, 1e-6);
    const auto colour = [&](const Vector3& at) {
        const XYZ seen = model.to_xyz(at);
        return Vector3{seen.X, seen.Y, seen.Z};
    };
    for (int i = 0; i < 30; ++i) {
        const Vector3 here = colour(rgb);
        Matrix3 slope;
        for (std::size_t c = 0; c < 3; ++c) {
            Vector3 beside = rgb;
            const double step = 1e-6 * std::max(rgb[c], 1e-3);
            beside[c] += step;
            const Vector3 there = colour(beside);
            for (std::size_t row = 0; row < 3; ++row) slope.m[row][c] = (there[row] - here[row]) / step;
        }
        const Vector3 move = inverse(slope) * Vector3{xyz.X - here[0], xyz.Y - here[1], xyz.Z - here[2]};
        // Not through the edge, behind which the roots are flat.
        for (std::size_t c = 0; c < 3; ++c) rgb[c] = std::max(rgb[c] + move[c], rgb[c] / 10);
    }
    return rgb;
}

bool ColourModel::is_matrix() const {
    for (const auto& row : from_working.roots.m)
        for (const double entry : row)
            if (entry != 0) return false;
    return true;
}

}  // namespace tonemend
