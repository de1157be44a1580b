#include "calibrate/keep/kept_calibration.h"

namespace tonemend {

Calibration fit_again(const KeptCalibration& kept) {
    return calibrate_on_readings(kept.picture, kept.fit.card_name, kept.fit.patches, kept.inputs);
}

}  // namespace tonemend
