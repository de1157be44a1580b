#pragma once

#include <string>

#include "measure/comparison.h"

namespace tonemend {

/// What the terminal can show.
enum class Swatches { none, truecolour };

/// Truecolour when stdout is a terminal that says so (COLORTERM) and NO_COLOR is not set.
Swatches detect_swatches();

/// A patch of that colour and two blanks; empty where the terminal shows none.
std::string swatch(const Lab& lab, Swatches swatches);

/// The comparison in a few lines: verdict, next move, three vials, both readings, what can be trusted. For an
/// unfit reading UNFIT stands for the verdict and its first warning for the move. Ends with a newline.
std::string summarise(const Frame& frame, const Calibration& calibration, const Comparison& comparison,
                      Swatches swatches);

/// One vial as a line of text: lighter  |-----[  |  ]---(==)-----|  darker   L*  −2.1 ± 0.3
std::string vial_line(const struct Vial& vial);

}  // namespace tonemend
