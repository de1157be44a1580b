#pragma once

#include "picture/frame.h"
#include "picture/write_dng.h"
#include "practice/light_map.h"

namespace tonemend {

/// What the sensor delivers: the light map through lens and sensor.
RawPicture take_picture(const PracticeScene& scene);

/// The camera's own file: white-balanced, through its maker's matrix and its tone curve, `bits` (8 or 16) a
/// sample. Its encoding is sRGB, assumed: no profile says so and the tone curve may differ.
Frame develop(const PracticeScene& scene, const RawPicture& raw, int bits);

/// The same without the maker's hand: a mosaic of 16 bits with a pedestal of 1024, the matrix its file states
/// being the inverse of the maker's. An odd last row or column is dropped.
SensorMosaic to_mosaic(const PracticeScene& scene, const RawPicture& raw);

/// take_picture and develop at the scene's own bits.
Frame render(const PracticeScene& scene);

}  // namespace tonemend
