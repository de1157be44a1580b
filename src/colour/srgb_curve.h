#pragma once

namespace tonemend {

/// The tone curve of sRGB (IEC 61966-2-1), per channel, for linear and encoded values with 0 as black and 1
/// as white. Both run on unclamped above 1, and below 0 as the mirror image about the origin (amendment 1,
/// annex G).
double encode_srgb(double linear);
/// The inverse of encode_srgb, but for a step of 2e-8 where the standard's rounded knees meet.
double decode_srgb(double encoded);

}  // namespace tonemend
