#pragma once

#include <optional>

#include "calibrate/warning.h"
#include "picture/frame.h"

namespace tonemend {

/// Traces of a JPEG in the samples themselves.
struct JpegTraces {
    double step = 0;      ///< of the coarsest quantiser found, in codes of 256
    double strength = 0;  ///< 0 none … 1: every coefficient on a multiple of its step
};

/// A JPEG rounds each coefficient of the cosine transform of its 8 × 8 squares of luma to a multiple of a
/// step (ITU-T T.81, A.3.4), and the multiples remain when it is saved again more finely, or without loss.
/// For some of the lowest coefficients, the step of 6 codes or more (quality under 70 by the usual tables; 90
/// has 2 to 4) on whose multiples those coefficients that are not near zero lie best: strength is the mean
/// cosine of 2π · coefficient / step, the median over the coefficients. From some 2,000 squares, at each of
/// the places where squares may begin that the picture's steps across rows and columns suggest. Nothing for
/// raw, for float samples, for means of frames, for pictures under 64 pixels a
/// side and where the samples are not at hand.
std::optional<JpegTraces> find_jpeg_traces(const Frame& frame);

/// "jpeg-resaved": a strong JPEG under a file that does not say so.
std::optional<Warning> warn_of_jpeg_traces(const Frame& frame);

}  // namespace tonemend
