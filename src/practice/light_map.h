#pragma once

#include <vector>

#include "practice/scene.h"

namespace tonemend {

/// Three floats a pixel, row by row.
struct RawPicture {
    int width = 0;
    int height = 0;
    std::vector<float> rgb;

    float* row(int y) {
        return rgb.data() + 3 * static_cast<std::size_t>(y) * static_cast<std::size_t>(width);
    }
    const float* row(int y) const {
        return rgb.data() + 3 * static_cast<std::size_t>(y) * static_cast<std::size_t>(width);
    }
};

/// The light that reaches the sensor from each pixel's place, in the camera's raw values, before lens and
/// sensor: board, card and bench top under the falling-off lamp, exposure applied, the repair's gloss and the
/// black level's veil added; or the grey sheet in place of board, card and bench top.
RawPicture light_map(const PracticeScene& scene);

/// The same with the board's grain grown before: `darkness` is grow_grain of the scene's grain, board and
/// seed.
RawPicture light_map(const PracticeScene& scene, const std::vector<float>& darkness);

}  // namespace tonemend
