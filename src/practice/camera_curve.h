#pragma once

#include <array>
#include <cstddef>

namespace tonemend {

/// How a camera encodes linear light.
enum class CameraTone {
    srgb,          ///< IEC 61966-2-1 exactly
    mild_s_curve,  ///< sRGB, then a monotone S-curve whose strength nobody is told
};

/// A camera's tone curve, the same for its three channels.
class CameraCurve {
  public:
    /// Strength 0 is sRGB itself; under 1 the curve rises everywhere: v − strength·sin(2πv)/2π over sRGB's v.
    /// It keeps black, middle grey (v = 0.5) and white where they are.
    explicit CameraCurve(double s_curve_strength);

    /// Encoded 0..1 of linear 0..1; linear values outside are clipped first.
    float encode(float linear) const;
    /// The same in double precision from the formula; encode is within 2e-7 of it (a hundredth of a 16-bit
    /// step).
    double encode_exactly(double linear) const;

  private:
    static constexpr std::size_t steps =
        32768;  // in the square root of light: dense where the curve is steep
    double strength_;
    std::array<float, steps + 2> table_;
};

}  // namespace tonemend
