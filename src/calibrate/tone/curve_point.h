#pragma once

namespace tonemend {

/// One neutral step as one channel sees it.
struct CurvePoint {
    double seen = 0;    ///< what the picture says, linear by the frame's own decoding
    double truth = 0;   ///< what a faithful camera would say; 1 for the perfect diffuser
    double seen_u = 0;  ///< standard uncertainty of `seen`: noise, texture, rounding, compression
};

}  // namespace tonemend
