#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "calibrate/calibration.h"
#include "picture/frame.h"

namespace tonemend {

/// An ICC input profile (class 'scnr', version 4.4) that says of a picture's codes what `calibration` says of
/// them: encoded RGB through `frame`'s decoding, the calibration's curves and its colour model to XYZ (D50),
/// where the perfect diffuser has Y = 1. Other programs show by it what Tonemend measures.
/// - A matrix model behind three curves: colorants and curves of 4096 steps, scaled so that the brightest
/// code
///   is 1.
/// - A root polynomial, or an encoding that is a lookup table: 'mAB ' curves that make the codes even to the
///   eye, a lattice of 33 nodes a side, cubes, and a matrix to XYZ.
/// The media white is the perfect diffuser; nothing is adapted beyond what the card's values say, so 'chad'
/// is the identity. What lies outside 0 ≤ X, Y, Z < 2 is clipped. The same input gives the same bytes. Throws
/// InputError when the picture is so dark that white would be beyond 2.
std::vector<std::uint8_t> input_profile(const Frame& frame, const Calibration& calibration,
                                        const std::string& description);

}  // namespace tonemend
