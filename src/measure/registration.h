#pragma once

#include "calibrate/calibration.h"
#include "calibrate/card/find_card.h"
#include "colour/matrix3.h"
#include "picture/frame.h"
#include "picture/region.h"

namespace tonemend {

/// The projective map from picture pixels of `first` to those of `other`, two pictures of one scene: what
/// both card frames say. Right in the plane of the card frame only.
Matrix3 register_on_card(const FoundCard& first, const FoundCard& other);

/// A region of one picture found again in another of the same scene.
struct RegionMatch {
    Region in_other;      ///< its corners there
    Matrix3 to_other;     ///< the map that put them there, corrected by the grain
    double moved_px = 0;  ///< how far the wood lay from where the card frames put it; that much is corrected
    double shift_px = 0;  ///< what is left after that, from a second look
    bool seen = false;    ///< the wood's grain could be matched; else shift_px is only supposed
    double noise = 0;     ///< what shift_px leaves in the mean's brightness, relative, standard deviation
};

/// Finds `region` of `first` in `other` by the map, then by the grain itself (phase correlation of the light,
/// with what is broader than a sixteenth of the region taken out; B. S. Reddy, B. N. Chatterji, IEEE Trans.
/// Image Process. 5 (1996)). Throws InputError when it lies outside the other picture.
RegionMatch match_region(const Frame& first, const Calibration& first_calibration, const Frame& other,
                         const Calibration& other_calibration, const Matrix3& to_other, const Region& region);

}  // namespace tonemend
