#pragma once

#include <string>

#include "colour/lab.h"
#include "picture/region.h"

namespace tonemend {

/// Whose material a sample is of.
enum class SampleSide { either, original, repair };

/// Standard uncertainty of an instrument's L*, a*, b*, each; and the part of it that all its readings share,
/// since it is no reference instrument (common practice, no source).
inline constexpr double instrument_u = 0.3, instrument_shared_u = 0.2;

/// A region of the picture whose colour its user measured with an instrument, under the light of the picture,
/// adapted to D50: a stained board of the original's or the repair's own materials.
struct ColourSample {
    Region region;
    Lab lab;
    SampleSide side = SampleSide::either;
    std::string text;  ///< as its user gave it
    double u = instrument_u;
};

/// Reads "REGION=L,a,b", "original:REGION=L,a,b" or "repair:REGION=L,a,b". Throws InputError: no region (see
/// parse_region), not three numbers, L* outside 0 to 100 or a*, b* beyond ±150.
ColourSample parse_sample(const std::string& text);

}  // namespace tonemend
