#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "picture/frame.h"

namespace tonemend {

/// A picture for people to look at: 8-bit encoded sRGB. Never feeds a number.
struct DisplayPicture {
    int width = 0;
    int height = 0;
    std::vector<std::uint8_t> rgb;  ///< height × width × 3
};

struct PreviewOptions {
    int longest_side = 0;  ///< of the result, in pixels; 0 or more than the frame's keeps its size
    std::array<double, 3> gain{1, 1, 1};  ///< on linear R, G, B: white balance and exposure of a raw frame
};

/// The frame as sRGB (IEC 61966-2-1, adapted from D50 by Bradford), averaged over each pixel's area in linear
/// light, colours outside sRGB cut to it. Worst error half a code and 0.03 more.
DisplayPicture make_preview(const Frame& frame, const PreviewOptions& options = {});

/// The picture as a frame, to be written.
Frame as_frame(const DisplayPicture& picture);

}  // namespace tonemend
