#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "calibrate/calibration.h"
#include "measure/direction.h"
#include "measure/many_lights_outcome.h"
#include "measure/reading.h"
#include "measure/uncertainty.h"
#include "measure/verdict.h"

namespace tonemend {

/// Repair minus original, under the light of the picture.
struct Difference {
    double de2000 = 0;
    double de2000_u95 = 0;
    double dL = 0, da = 0, db = 0;  ///< CIELAB
    double dC = 0, dH = 0;  ///< ΔC*ab and ΔH*ab (CIE 15:2018, 8.2.3): dL² + dC² + dH² = dL² + da² + db²
    std::array<double, 3> lab_u95{};  ///< of dL, da, db
    double ground_de2000 = 0;         ///< equal to de2000 unless both regions show ground and figure
    double figure_de2000 = 0;         ///< likewise
};

/// What the whole program is for.
struct Comparison {
    Reading original;
    Reading repair;
    Difference difference;
    std::vector<Step> direction;  ///< strongest first
    Verdict verdict = Verdict::undecided;
    double tolerance = default_tolerance;
    std::optional<ManyLightsOutcome> many_lights;  ///< when pictures under further lights were given
    std::vector<Warning> warnings;                 ///< those that make the reading unfit first

    bool unfit() const;
    /// Both regions show two populations, so that they can be compared part by part.
    bool both_figured() const { return original.figure_share > 0 && repair.figure_share > 0; }
};

/// Difference, intervals, verdict and direction from the two readings and what is uncertain of them.
void conclude(Comparison& comparison, const PairUncertainty& uncertainty);

/// Compares two regions of one picture. Throws InputError (see collect_pixels).
Comparison compare_regions(const Frame& frame, const Calibration& calibration, const Region& original,
                           const Region& repair, double tolerance = default_tolerance);

}  // namespace tonemend
