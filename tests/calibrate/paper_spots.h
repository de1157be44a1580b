#pragma once

#include <functional>
#include <vector>

#include "calibrate/flat/paper_rim.h"

namespace tonemend::testing {

/// Spots along the margin of a sheet that fills 600 × 500 pixels from (100, 50), 100 of them, clockwise.
inline std::vector<PaperSpot> ring_of_paper(const std::function<Vector3(const Point&)>& light) {
    std::vector<PaperSpot> spots;
    for (int k = 0; k < 100; ++k) {
        const double part = k % 25 / 25.0;
        const Point corner_to_corner[4]{
            {100 + 600 * part, 50}, {700, 50 + 500 * part}, {700 - 600 * part, 550}, {100, 550 - 500 * part}};
        const Point place = corner_to_corner[k / 25];
        spots.push_back({place, light(place)});
    }
    return spots;
}

}  // namespace tonemend::testing
