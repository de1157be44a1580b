#pragma once

#include <array>
#include <vector>

#include "colour/matrix3.h"
#include "practice/bands.h"
#include "practice/random.h"

namespace tonemend {

/// 1/(1 + exp(−(c0 + c1·u + c2·u²))) over the wavelengths, coefficients drawn: smooth and within 0..1.
Bands draw_smooth_reflectance(Random& random);

/// The reflectances that the bench's camera makers fit their matrices on: bare, stained and finished wood,
/// one in three, and other smooth reflectances. The same every time.
const std::vector<Bands>& training_reflectances();

/// White-balanced camera RGB to linear sRGB: least squares over training_reflectances() under CIE D65, each
/// reflectance weighted by 1/Y, each row's sum held to 1 so that white stays white.
Matrix3 fit_camera_matrix(const std::array<Bands, 3>& sensitivity);

}  // namespace tonemend
