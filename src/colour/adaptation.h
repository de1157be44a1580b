#pragma once

#include "colour/matrix3.h"
#include "colour/xyz.h"

namespace tonemend {

/// Chromatic adaptation, complete and of the von Kries kind: the matrix takes XYZ seen under the white `from`
/// to the corresponding XYZ under the white `to`, and `from` itself to `to`. All whites must be real lights
/// (no cone response may be 0; asserted).

/// Bradford's linear transform as the ICC fixes it (ICC.1:2022, annex E).
Matrix3 bradford(const WhitePoint& from, const WhitePoint& to);

/// CAT16 at full adaptation (Li et al., "Comprehensive color solutions", Color Res. Appl. 42 (2017); CIE
/// 248:2022).
Matrix3 cat16(const WhitePoint& from, const WhitePoint& to);

/// `matrix` times `colour`.
XYZ transform(const Matrix3& matrix, const XYZ& colour);

}  // namespace tonemend
