#pragma once

#include <memory>
#include <optional>

#include "calibrate/preflight/light_comparison.h"
#include "measure/second_light.h"
#include "picture/frame.h"

namespace tonemend {

/// The pair under the light that was on when the person held it, to be compared with under another.
struct HeldLight {
    PairUnderOne pair;
    PictureLight light;  ///< by which another lamp is told
};

/// Whether the person has said that the lamp is another by now.
enum class LampSaid { nothing, changed };

/// What the present reading makes of a held light.
struct HeldComparison {
    std::shared_ptr<const HeldLight> first;  ///< never null
    std::optional<LightChange> change;       ///< absent until the lamp is another
    double now_de2000 = 0, now_u95 = 0;
};

/// The reading of `frame` as light one.
std::shared_ptr<const HeldLight> hold_light(const Frame& frame,
                                            const std::shared_ptr<const Calibration>& calibration,
                                            const Comparison& comparison,
                                            const std::optional<StatedLight>& stated);

/// The pair under both lights, for a job's record. `held` must have a change, and the rest be what it was
/// made of.
PairUnderLights under_both(const HeldComparison& held, const Frame& frame,
                           const std::shared_ptr<const Calibration>& calibration,
                           const Comparison& comparison);

/// The present reading against the held one. The lamp is another when the person says so, when another light
/// is stated, or when the white of the card differs (compare_light's "light-changed"), which a camera that
/// balances by itself hides.
HeldComparison compare_with_held(const std::shared_ptr<const HeldLight>& held, LampSaid said,
                                 const Frame& frame, const std::shared_ptr<const Calibration>& calibration,
                                 const Comparison& comparison, const std::optional<StatedLight>& stated);

}  // namespace tonemend
