#pragma once

#include <optional>
#include <vector>

#include "calibrate/calibration.h"

namespace tonemend {

/// What a picture tells of its light and exposure, to hold against another picture.
struct PictureLight {
    XYZ white;            ///< as Calibration::white
    double exposure = 0;  ///< what is recorded for the perfect diffuser, decoded linear light
    bool raw = false;
    std::optional<double> set_exposure;  ///< seconds × ISO ÷ (f-number)², where the file says all three
    bool balance_automatic = false;      ///< the file says so
};

PictureLight light_of(const Frame& frame, const Calibration& calibration);

/// What speaks against comparing two pictures that should be of one light and one setting (a flat picture, a
/// second light, before and after). "light-changed": the card's white moved by more than C*ab 1.5 at L* 50,
/// which is about 2.5 % of blue against green. A camera that balances by itself hides a change of light.
/// "exposure-differs": white is recorded, or the exposure was set, more than 10 % apart: 10 % is 1.2 ΔE2000
/// where no card corrects it. Raw and developed pictures are on different scales: nothing is said of such a
/// pair.
std::vector<Warning> compare_light(const PictureLight& before, const PictureLight& after);

}  // namespace tonemend
