#include "calibrate/tone/coding.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "colour/srgb_curve.h"

namespace tonemend {
namespace {

// Found with the accuracy study's pictures (tests/measure/accuracy_study.cpp) at qualities 95, 90, 75 and 50.
double compression_of(int quality) {
    if (quality >= 95) return 0.06 / 255;
    if (quality >= 90) return 0.11 / 255;
    if (quality >= 75) return 0.2 / 255;
    return 0.4 / 255;
}

constexpr double least_camera_pixels = 1.2e6;

}  // namespace

double Coding::mean_u(double linear, double spread, double pixels) const {
    if (step <= 0) return 0;
    const double code = std::clamp(encode_srgb(linear), 0.0, 1.0);
    const double light_a_code = (decode_srgb(code + 1.0 / 255) - decode_srgb(code)) * 255;
    const double sigma = spread / (light_a_code * step);
    const double rounding =
        step / std::sqrt(12.0) * std::exp(-2 * std::numbers::pi * std::numbers::pi * sigma * sigma);
    const double few_squares = std::max(1.0, 40.0 / std::sqrt(pixels));
    return light_a_code * std::hypot(rounding, compression * few_squares);
}

bool looks_shrunk(const Frame& frame) {
    return frame.facts.jpeg_quality && static_cast<double>(frame.width) * frame.height < least_camera_pixels;
}

Coding coding_of(const Frame& frame) {
    Coding coding;
    if (frame.type == SampleType::uint8 || frame.facts.mean_of > 1)
        coding.step = 1.0 / 255;
    else if (frame.type == SampleType::uint16)
        coding.step = 1.0 / 65535;
    if (frame.facts.jpeg_quality) {
        // A shrunk picture has lost the noise that evens out the rounding of JPEG's two colour-difference
        // channels.
        coding.compression = compression_of(*frame.facts.jpeg_quality) * (looks_shrunk(frame) ? 4.0 : 1.0);
    }
    return coding;
}

}  // namespace tonemend
