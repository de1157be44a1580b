#pragma once

#include <array>
#include <string_view>

#include "measure/comparison.h"

namespace tonemend {

/// One vial of the spirit level: the same geometry on the terminal, on pictures, in the window and in the
/// report. Positions run from −1 (left end) to +1 (right end). The bubble stands on the side that the repair
/// has too much of: a repair that is lighter than the original has its bubble left of the middle, on
/// "lighter", and wants darkening; one that is redder has it right, on "redder".
struct Vial {
    std::string_view left, right;  ///< "lighter" / "darker", "greener" / "redder", "bluer" / "yellower"
    std::string_view axis;         ///< "L*", "a*", "b*"
    double difference = 0;         ///< repair minus original, CIELAB
    double u95 = 0;
    double scale = 10;             ///< CIELAB units from the middle to an end
    double bubble = 0;             ///< where the difference is; clamped to ±1
    double bubble_half_width = 0;  ///< the 95 % interval
    double line = 0;  ///< the etched lines stand at ±line: the difference along this axis alone that makes
                      ///< ΔE2000 equal to the tolerance
};

/// The three vials of a comparison: L*, a*, b*. They share one scale: 3 when every difference is within it,
/// else 10.
std::array<Vial, 3> draw_vials(const Comparison& comparison);

}  // namespace tonemend
