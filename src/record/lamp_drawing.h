#pragma once

#include <string>
#include <vector>

#include "picture/geometry.h"

namespace tonemend {

/// Where things stand in the drawing of a bench from the side, in its own units, y downwards.
struct LampPlan {
    Point work, camera;
    std::vector<Point> lamps;  ///< left and right
    std::vector<Point>
        mirrored;  ///< where each lamp's mirror image leaves to, as far from the work as the lamp
};

/// Lamps at `degrees` from the camera's axis, 10 to 80; the mirror images leave at the same angle on the
/// other side (law of reflection).
LampPlan plan_lamps(double degrees = 45);

/// The plan as an SVG picture with words: lamps, their mirror images that miss the camera, polarisers
/// crossed.
std::string draw_lamps(const LampPlan& plan);

}  // namespace tonemend
