#include "colour/adaptation.h"

#include <cassert>

namespace tonemend {
namespace {

// ICC.1:2022, equation E.1.
constexpr Matrix3 bradford_cones{
    {{{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}}};

// Li et al. (2017), M16.
constexpr Matrix3 cat16_cones{
    {{{0.401288, 0.650173, -0.051461}, {-0.250268, 1.204414, 0.045854}, {-0.002079, 0.048952, 0.953127}}}};

Matrix3 adapt(const Matrix3& cones, const WhitePoint& from, const WhitePoint& to) {
    const Vector3 source = cones * Vector3{from.X, from.Y, from.Z};
    const Vector3 target = cones * Vector3{to.X, to.Y, to.Z};
    assert(source[0] != 0 && source[1] != 0 && source[2] != 0);
    return inverse(cones) *
           Matrix3::diagonal(target[0] / source[0], target[1] / source[1], target[2] / source[2]) * cones;
}

}  // namespace

Matrix3 bradford(const WhitePoint& from, const WhitePoint& to) {
    return adapt(bradford_cones, from, to);
}

Matrix3 cat16(const WhitePoint& from, const WhitePoint& to) {
    return adapt(cat16_cones, from, to);
}

XYZ transform(const Matrix3& matrix, const XYZ& colour) {
    const Vector3 v = matrix * Vector3{colour.X, colour.Y, colour.Z};
    return {v[0], v[1], v[2]};
}

}  // namespace tonemend
