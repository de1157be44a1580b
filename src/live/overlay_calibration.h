#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "calibrate/calibration.h"
#include "colour/matrix3.h"
#include "colour/xyz.h"
#include "picture/frame.h"

namespace tonemend {

/// The way from the codes of a frame to light, as the picture on screen takes it: a curve a channel in the
/// code domain, which holds the frame's decoding and the calibration's tone curve, and its colour model. Twin
/// of shaders/calibration.glsl.
struct CodeCurves {
    /// 16 intervals for each of the 255 steps of 8 bits, so that every 8-bit code meets an entry exactly.
    /// Between entries the line is off by less than 1e-6 of white for 16-bit sRGB and a calibration on it.
    static constexpr std::size_t entries = 255 * 16 + 1;

    std::vector<float>
        light;  ///< `entries` × 3, R, G, B side by side: calibrated linear light, 1 for the perfect diffuser
    ColourModel model;  ///< calibrated linear RGB → XYZ (D50)

    /// Light of a code; codes beyond 0..1 count as 0 and 1; NaN and infinities give NaN.
    Vector3 light_of(const Vector3& code) const;
    XYZ xyz_of(const Vector3& light_rgb) const;
};

/// `calibration` may be null: then the frame's own decoding alone. The encoding must be separable; a frame
/// that is not is shown from its linear light (see PictureCodes).
CodeCurves make_code_curves(const ColourEncoding& encoding, const Calibration* calibration);

}  // namespace tonemend
