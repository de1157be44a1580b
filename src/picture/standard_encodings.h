#pragma once

#include <array>
#include <functional>
#include <string>

#include "colour/rgb_space.h"
#include "picture/frame.h"

namespace tonemend {

/// Whether the file says what its numbers mean, or the reader has to assume it.
enum class Provenance { stated, assumed };

/// Three functions of one channel each, encoded 0..1 → linear 0..1.
std::shared_ptr<const Decoding> separable_decoding(std::array<std::function<double(double)>, 3> curves);
/// The samples are linear light already.
std::shared_ptr<const Decoding> linear_decoding();

/// sRGB (IEC 61966-2-1).
ColourEncoding srgb_encoding(Provenance provenance);
/// The same for video as it comes from a camera, a stream or a video file, which carry no profile: a
/// convention, so nothing is assumed. The card's steps tell how far the camera's own curve departs from it.
ColourEncoding live_video_encoding();
/// Linear light in sRGB primaries, the custom of floating-point TIFF (common practice, no source).
ColourEncoding linear_srgb_encoding(Provenance provenance);
/// opRGB (IEC 61966-2-5): gamma 563/256.
ColourEncoding op_rgb_encoding(const std::string& description);
/// encoded = linear^(1/gamma) in the given space.
ColourEncoding gamma_encoding(double gamma, const RgbSpace& space, const std::string& description);

}  // namespace tonemend
