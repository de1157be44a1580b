#pragma once

#include <string>

#include "calibrate/calibration.h"
#include "calibrate/card/cgats.h"
#include "picture/frame.h"

namespace tonemend {

/// What a calibration read on its card, as a CGATS table (ISO 28178): SAMPLE_NAME; RGB_R RGB_G RGB_B, means
/// in the picture's own linear light, 255 for 1; STDEV_R … of the pixels; U_R …, standard uncertainty of the
/// means; LIGHT_R …, relative light at the patch by the flat field; PIXELS, OUTLIERS, CLIPPED; XYZ_X …, 0 to
/// 100, and LAB_L …, as the calibration reads them (D50, 2°); DE_2000 from the card's own value. The keyword
/// RGB_LIGHT says "linear", RGB_TO_XYZ gives the matrix to XYZ (D50).
CgatsTable patch_table(const Frame& frame, const Calibration& calibration);

/// Readings to calibrate on, with the frame that they came from as far as a table tells.
struct TabledReadings {
    Frame frame;  ///< without samples
    std::vector<PatchReading> patches;
};

/// The readings of `table`, rows matched to the patches of `card` by name. What the table was made of decides
/// what its RGB means: the keyword RGB_LIGHT "linear", light, else codes, 0 to 255, of `encoding`. Without
/// U_… the uncertainty is that of rounding to whole codes. Throws InputError: columns missing, a value out of
/// range, a row that is no patch of the card, a neutral patch of the card without a row.
TabledReadings tabled_readings(const CgatsTable& table, const Card& card, const ColourEncoding& encoding);

}  // namespace tonemend
