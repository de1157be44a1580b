#include "calibrate/model/root_polynomial.h"

#include <fmt/format.h>

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

#include "picture/input_error.h"

namespace tonemend {

Eigen::VectorXd root_polynomial_terms(const Vector3& rgb, int degree) {
    assert(degree >= 1 && degree <= 4);
    const double r = rgb[0], g = rgb[1], b = rgb[2];
    const double R = std::max(r, 0.0), G = std::max(g, 0.0), B = std::max(b, 0.0);
    std::vector<double> terms{r, g, b};
    if (degree >= 2) terms.insert(terms.end(), {std::sqrt(R * G), std::sqrt(G * B), std::sqrt(R * B)});
    if (degree >= 3)
        terms.insert(terms.end(),
                     {std::cbrt(R * G * G), std::cbrt(G * B * B), std::cbrt(R * B * B), std::cbrt(G * R * R),
                      std::cbrt(B * G * G), std::cbrt(B * R * R), std::cbrt(R * G * B)});
    if (degree >= 4) {
        const auto fourth = [](double product) { return std::sqrt(std::sqrt(product)); };
        terms.insert(terms.end(), {fourth(R * R * R * G), fourth(R * R * R * B), fourth(G * G * G * R),
                                   fourth(G * G * G * B), fourth(B * B * B * R), fourth(B * B * B * G),
                                   fourth(R * R * G * B), fourth(G * G * R * B), fourth(B * B * R * G)});
    }
    return Eigen::Map<const Eigen::VectorXd>(terms.data(), static_cast<Eigen::Index>(terms.size()));
}

Eigen::MatrixXd regress_on_terms(const std::vector<Vector3>& seen, const std::vector<Vector3>& wanted,
                                 int degree) {
    assert(seen.size() == wanted.size() && !seen.empty());
    const auto rows = static_cast<Eigen::Index>(seen.size());
    Eigen::MatrixXd terms(rows, root_polynomial_terms(seen.front(), degree).size());
    Eigen::MatrixXd targets(rows, 3);
    for (Eigen::Index row = 0; row < rows; ++row) {
        const auto i = static_cast<std::size_t>(row);
        terms.row(row) = root_polynomial_terms(seen[i], degree).transpose();
        targets.row(row) << wanted[i][0], wanted[i][1], wanted[i][2];
    }
    return terms.completeOrthogonalDecomposition().solve(targets).transpose();
}

Eigen::MatrixXd fit_root_polynomial(const std::vector<Vector3>& seen, const std::vector<XYZ>& wanted,
                                    int degree) {
    constexpr std::array<std::size_t, 4> terms{3, 6, 13, 22};
    const std::size_t needed = std::max(root_polynomial_patches, terms[static_cast<std::size_t>(degree - 1)]);
    if (seen.size() < needed)
        throw InputError(
            fmt::format("a root polynomial of degree {} without a prior needs {} known patches and the card "
                        "has {}; use a "
                        "card with more of them, or a lower degree",
                        degree, needed, seen.size()));
    std::vector<Vector3> targets;
    for (const XYZ& xyz : wanted) targets.push_back({xyz.X, xyz.Y, xyz.Z});
    return regress_on_terms(seen, targets, degree);
}

}  // namespace tonemend
