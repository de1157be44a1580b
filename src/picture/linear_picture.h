#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <vector>

#include "picture/frame.h"
#include "picture/geometry.h"

namespace tonemend {

/// A window of a frame in linear light: float R, G, B proportional to light, with a mask of clipped pixels.
struct LinearPicture {
    PixelRect window;        ///< where it lies in the frame
    std::vector<float> rgb;  ///< window.height × window.width × 3, interleaved
    std::vector<std::uint8_t>
        clipped;  ///< one a pixel: 1 when any encoded channel sits at the top or bottom of
                  ///< its range; in a raw picture also the eight pixels around, which borrow from it

    const float* at(int column, int row) const {
        return rgb.data() + 3 * (static_cast<std::size_t>(row) * static_cast<std::size_t>(window.width) +
                                 static_cast<std::size_t>(column));
    }
};

/// One more curve a channel, applied after the frame's own decoding: linear in, corrected linear out.
using ChannelCurve = std::function<double(double)>;
using ChannelCurves = std::array<ChannelCurve, 3>;

/// The part of `frame` inside `window` (which must lie in the frame) as linear light. Costs one table look-up
/// a sample for 8- and 16-bit frames with separable encodings, `curves` included.
LinearPicture linear_light(const Frame& frame, const PixelRect& window,
                           const ChannelCurves* curves = nullptr);

}  // namespace tonemend
