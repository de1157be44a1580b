#pragma once

#include "colour/matrix3.h"
#include "picture/geometry.h"

namespace tonemend {

/// The projective map that takes the unit square's corners (0,0), (1,0), (1,1), (0,1) to the quad's corners
/// in order. Closed form: Heckbert, "Fundamentals of texture mapping and image warping" (1989), 2.2.3.
Matrix3 unit_square_to_quad(const Quad& quad);

/// `point` through the projective map `homography`.
Point map_point(const Matrix3& homography, const Point& point);

}  // namespace tonemend
