#pragma once

#include <array>

#include "calibrate/flat/flat_field.h"
#include "calibrate/flat/flat_samples.h"
#include "calibrate/tone/tone_curve.h"

namespace tonemend {

/// More light than this between the brightest and the darkest place is not evened out: 30 %.
inline constexpr double most_evened_out = 0.30;

/// The flat field that `samples` show through the camera's `curves`, 1 at `middle`.
///
/// A sheet: the degree (1 to 6) is the one with the smallest cross-validated residual, or the last before two
/// that gain nothing, whole tiles of a
/// forty-eighth of the picture being left out in turn; that residual is the misfit. The card: degree 4, terms
/// that the places cannot tell staying near 0 with a doubt that says so.
///
/// Throws InputError: more than most_evened_out; a sheet whose tiles are off by more than 1 % rms or of which
/// more than a fifth has to be left out, or one spot larger than 1.5 % of it shines or is dirty; places of
/// the card that do not agree; fewer than two places of the card.
FlatField fit_flat_field(const FlatSamples& samples, const std::array<ToneCurve, 3>& curves,
                         const Point& middle);

/// The same in a twentieth of the time, good enough to find the curves by: a sheet's degree is 4, its misfit
/// is not known, and nothing is refused but samples that are too dark.
FlatField draft_flat_field(const FlatSamples& samples, const std::array<ToneCurve, 3>& curves,
                           const Point& middle);

}  // namespace tonemend
