#pragma once

#include "picture/frame.h"

namespace tonemend {

/// What storing a picture costs a mean, as standard uncertainties in encoded sRGB code, 0..1 from black to
/// white.
struct Coding {
    double step =
        0;  ///< of the stored samples: 1/255 for 8 bits and means of such, 1/65535 for 16, 0 for float
    double compression = 0;  ///< that JPEG leaves in the mean of a region

    /// Standard uncertainty in linear light of a mean around `linear` over pixels that spread by `spread`
    /// (linear, standard deviation). Rounding hurts only what does not spread over the steps: the error of
    /// the mean of a normal distribution with deviation σ steps, rounded, is at most exp(−2π²σ²)/π steps
    /// (Widrow, Kollár, "Quantization Noise", 2008).
    /// JPEG works on squares of 8 × 8 pixels, so a mean over few of them keeps more of its error: `pixels` is
    /// how many entered.
    double mean_u(double linear, double spread, double pixels) const;
};

/// True for a JPEG of fewer pixels than cameras make (1.2 million): shrunk or forwarded on its way.
bool looks_shrunk(const Frame& frame);

Coding coding_of(const Frame& frame);

}  // namespace tonemend
