#pragma once

namespace tonemend {

/// CIE 1931 tristimulus values, 2° observer. Y is 1 for the perfect diffuser under its light.
struct XYZ {
    double X = 0;
    double Y = 0;
    double Z = 0;
};

/// The tristimulus values of a light's white, scaled to Y = 1. A type of its own so that no conversion
/// to CIELAB can forget which white it is relative to.
struct WhitePoint {
    double X = 1;
    double Y = 1;
    double Z = 1;
};

/// D50 as the ICC connection space has it (ICC.1:2022, 7.2.16): exactly 0.9642, 1, 0.8249.
inline constexpr WhitePoint d50_icc{0.9642, 1.0, 0.8249};

}  // namespace tonemend
