#pragma once

#include <array>
#include <cstdint>

#include "colour/matrix3.h"
#include "practice/bands.h"
#include "practice/lamp.h"

namespace tonemend {

/// A camera of the practice bench: three smooth sensitivities that are like an ordinary camera's and no
/// linear combination of the eye's, its sensor's noise, and its maker's colour matrix.
struct PracticeCamera {
    std::uint64_t number = 0;
    std::array<Bands, 3>
        sensitivity{};      ///< red, green, blue; response to a lamp's power, 1 at the highest of all
    double full_well = 0;   ///< electrons at raw 1
    double read_noise = 0;  ///< electrons, standard deviation
    Matrix3 to_srgb;        ///< white-balanced camera RGB to linear sRGB; each row sums to 1
};

/// Camera number 0, 1, 2, …: peaks near 600, 535 and 460 nm, widths, overlap and noise drawn by the number,
/// the matrix fitted as makers do: least squares of linear sRGB over wood and other smooth reflectances under
/// CIE D65, white kept white.
PracticeCamera make_camera(std::uint64_t number);

/// What the camera does about the lamp's colour.
enum class WhiteBalance {
    automatic,  ///< the lamp's white comes out neutral
    daylight,   ///< fixed for CIE D65: other lamps leave a cast
};

/// A camera in front of a lamp. Raw values are relative to the perfect diffuser's brightest channel.
struct CameraView {
    std::array<Bands, 3> weights{};  ///< power times sensitivity
    Vector3 white{};                 ///< raw of the perfect diffuser; the largest is 1
    Vector3 balance{};               ///< raw to white-balanced
    Matrix3 to_srgb;
    double output_scale = 1;  ///< brings the perfect diffuser's highest output channel to 1

    Vector3 raw(const Bands& reflectance) const;
    /// Raw to linear sRGB as the camera writes it, before exposure.
    Matrix3 output_matrix() const;
};

CameraView look_at(const PracticeCamera& camera, const Lamp& lamp, WhiteBalance balance);

}  // namespace tonemend
