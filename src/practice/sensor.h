#pragma once

#include "practice/light_map.h"

namespace tonemend {

/// The lens: a Gaussian blur of `sigma` pixels (0: none); the picture's edge pixels stand for what lies
/// outside.
void blur(RawPicture& picture, double sigma);

/// The sensor: photon noise and read noise of the scene's camera times the scene's noise option, independent
/// in every pixel and channel; then clipped at raw 1. A value v has variance (v·full_well +
/// read_noise²)/full_well². Values may fall below 0.
void expose(const PracticeScene& scene, RawPicture& picture);

}  // namespace tonemend
