#include "calibrate/preflight/card_frame_warnings.h"

#include <algorithm>

#include "calibrate/preflight/card_shadow.h"
#include "calibrate/preflight/card_tilt.h"
#include "calibrate/preflight/light_bands.h"
#include "calibrate/preflight/light_mixture.h"
#include "calibrate/preflight/local_tones.h"

namespace tonemend {
namespace {

// What makes the paper uneven: one cause, the first that explains it.
std::optional<Warning> warn_of_uneven_paper(const Frame& frame, const std::vector<PaperSpot>& spots) {
    if (unevenness_of_paper(spots) < 0.01) return std::nullopt;
    if (auto warning = warn_of_local_tones(frame, spots)) return warning;
    if (auto warning = warn_of_bands(spots)) return warning;
    return warn_of_shadow(spots);
}

}  // namespace

std::vector<Warning> warn_of_card_frame(const Frame& frame, const FoundCard& found,
                                        const Calibration& calibration) {
    std::vector<Warning> warnings;
    if (const auto warning = warn_of_tilt(found)) warnings.push_back(*warning);
    const bool blurred = std::any_of(calibration.warnings.begin(), calibration.warnings.end(),
                                     [](const Warning& warning) { return warning.code == "card-blurred"; });
    if (blurred) return warnings;
    const std::vector<PaperSpot> spots = read_paper_rim(frame, found);
    if (const auto warning = warn_of_mixture(spots)) warnings.push_back(*warning);
    if (const auto warning = warn_of_uneven_paper(frame, spots)) warnings.push_back(*warning);
    return warnings;
}

}  // namespace tonemend
