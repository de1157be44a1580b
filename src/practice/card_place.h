#pragma once

#include "picture/geometry.h"

namespace tonemend {

/// How a flat sheet lies before the camera; degrees.
struct Pose {
    double rotation = 0;        ///< in the picture's plane, clockwise
    double tilt = 0;            ///< out of it
    double tilt_direction = 0;  ///< of the axis of tilt, from the x axis
};

/// The corners of a width × height sheet (any unit) in that pose, seen in perspective from three diagonals
/// away, as large as `area` holds times `fill` (0..1). `across` and `down` (0..1) place it in the room that
/// is left.
Quad place_sheet(double width, double height, const Pose& pose, const PixelRect& area, double fill,
                 double across, double down);

}  // namespace tonemend
