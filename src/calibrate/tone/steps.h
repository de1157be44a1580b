#pragma once

#include <array>
#include <optional>
#include <vector>

#include "calibrate/tone/patch_reading.h"
#include "calibrate/tone/tone_curve.h"
#include "picture/frame.h"

namespace tonemend {

/// More of a step than this at the end of the camera's range, and the step is not used.
inline constexpr double clipped_share_allowed = 0.02;

/// True for a patch from which the tone curve is taken: neutral, and not clipped.
bool serves_as_step(const PatchReading& reading);

/// A curve for each channel from the neutral patches among `patches`, each under the light that its reading
/// states. See calibrate_on_card for `black_level`
/// and errors.
std::array<ToneCurve, 3> fit_curves(const Frame& frame, const std::vector<PatchReading>& patches,
                                    std::optional<double> black_level);

}  // namespace tonemend
