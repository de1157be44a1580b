#pragma once

#include "picture/linear_picture.h"

namespace tonemend {

/// Whether two pictures of one place show the same grain. Red minus blue is looked at, in which neutral light
/// (gloss) cancels; green on wood too grey for that. What is broader than a sixteenth of the picture is taken
/// out, clipped pixels are left out, and noise, which no two pixels share, is kept out by comparing pixels
/// that lie three apart.
struct GrainLikeness {
    double contrast = 0;     ///< of the first picture's grain, relative; 0 where there is nothing but noise
    double correlation = 0;  ///< of the two, 1 for the same grain; 0 where contrast is
};

/// Both pictures are of one size.
GrainLikeness compare_grain(const LinearPicture& first, const LinearPicture& other);

}  // namespace tonemend
