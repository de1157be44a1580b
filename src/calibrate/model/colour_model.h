#pragma once

#include "colour/matrix3.h"
#include "colour/xyz.h"

namespace tonemend {

/// A change of a ColourModel's coefficients: XYZ (D50) a unit of each working-space term.
struct ModelChange {
    Matrix3 linear;  ///< of R, G, B
    Matrix3 roots;   ///< of √(RG), √(GB), √(RB)

    /// What the change adds to the colour of `working`, working-space light.
    XYZ of(const Vector3& working) const;
};

/// From calibrated linear RGB (1 for the perfect diffuser) to XYZ (D50): a matrix, or a root polynomial of
/// degree two (G. Finlayson, M. Mackiewicz, A. Hurlbert, "Color correction using root-polynomial regression",
/// IEEE Trans. Image Process. 24 (2015)), whose terms grow in proportion to the light, as a matrix's do. The
/// terms are those of a working space, the primaries of ROMM RGB (ISO 22028-2), in which every camera's
/// colours, once its own matrix is applied, mean the same and are positive.
struct ColourModel {
    Matrix3 to_working = Matrix3::identity();  ///< calibrated linear RGB → working-space light, white 1, 1, 1
    ModelChange from_working{Matrix3::identity(), {}};

    /// The plain matrix `to_xyz_d50`.
    static ColourModel of_matrix(const Matrix3& to_xyz_d50);

    bool is_matrix() const;
    /// The matrix part; all there is when is_matrix().
    Matrix3 matrix() const { return from_working.linear * to_working; }
    XYZ to_xyz(const Vector3& calibrated_rgb) const { return from_working.of(to_working * calibrated_rgb); }
};

/// The calibrated linear RGB whose colour is `xyz`, by Newton's method from the matrix part's answer; for
/// colours of surfaces exact to 1e-9.
Vector3 calibrated_rgb(const ColourModel& model, const XYZ& xyz);

/// √(RG), √(GB), √(RB); a product below 0 counts as 0.
Vector3 root_terms(const Vector3& working);

}  // namespace tonemend
