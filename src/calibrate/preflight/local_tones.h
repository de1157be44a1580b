#pragma once

#include <optional>
#include <vector>

#include "calibrate/flat/paper_rim.h"
#include "calibrate/warning.h"

namespace tonemend {

/// How the paper's brightness goes with what lies around it.
struct LocalTones {
    double strength = 0;   ///< paper ∝ surroundings^−strength; over 0: surroundings are evened out
    double explained = 0;  ///< share (0..1) of what a slope leaves unexplained on the paper
};

/// Surroundings are blurred over a sixty-fourth, a thirty-second and a sixteenth of the picture's width
/// (standard deviation); the one that explains most counts. Nothing with too few spots.
std::optional<LocalTones> find_local_tones(const Frame& frame, const std::vector<PaperSpot>& spots);

/// "tones-local": the camera lightens what lies beside something dark, so that no curve can undo its tones.
/// Surroundings half as bright lift a colour by the strength × 69 %: 0.04 is 3 % of light, 0.3 ΔE2000.
std::optional<Warning> warn_of_local_tones(const Frame& frame, const std::vector<PaperSpot>& spots);

}  // namespace tonemend
