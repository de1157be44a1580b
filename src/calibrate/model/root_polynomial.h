#pragma once

#include <Eigen/Core>
#include <vector>

#include "colour/matrix3.h"
#include "colour/xyz.h"

namespace tonemend {

/// Patches without which an unregularised regression is refused: fewer let it follow noise.
inline constexpr std::size_t root_polynomial_patches = 16;

/// Root-polynomial terms of degree 1 to 4 (G. Finlayson, M. Mackiewicz, A. Hurlbert, "Color correction using
/// root-polynomial regression", IEEE Trans. Image Process. 24 (2015)): 3, 6, 13 or 22 of them, each growing
/// in proportion to the light. Channels below 0 count as 0 under the roots.
Eigen::VectorXd root_polynomial_terms(const Vector3& rgb, int degree);

/// Least squares without a prior from `seen` to `wanted`, one row of the result for each of the three wanted
/// numbers. Any degree of root_polynomial_terms; `seen` and `wanted` of one length.
Eigen::MatrixXd regress_on_terms(const std::vector<Vector3>& seen, const std::vector<Vector3>& wanted,
                                 int degree);

/// The same for a card. Throws InputError when there are fewer patches than root_polynomial_patches, or fewer
/// than terms.
Eigen::MatrixXd fit_root_polynomial(const std::vector<Vector3>& seen, const std::vector<XYZ>& wanted,
                                    int degree);

}  // namespace tonemend
