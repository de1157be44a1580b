#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "calibrate/card.h"
#include "calibrate/coding.h"
#include "calibrate/find_card.h"
#include "calibrate/light_slope.h"
#include "calibrate/patch_reading.h"
#include "calibrate/tone_curve.h"
#include "calibrate/warning.h"
#include "picture/frame.h"
#include "picture/linear_picture.h"

namespace tonemend {

/// What a calibration may be wrong by; standard uncertainties (JCGM 100:2008), each for a normal error.
struct CalibrationUncertainty {
    double step =
        0;  ///< of each neutral step's value in each channel, relative; its reading's own comes on top
    double card = 0;  ///< of the card as a whole, relative: every step lighter or darker than stated
    double exponent =
        0;  ///< of an unknown tone curve, as the exponent of a power law fixed at the card's brightest step
    double black = 0;  ///< of an unknown black level, as a share of white
    double contrast =
        0;  ///< of the difference between two colours along each CIELAB axis, as a share of their distance:
            ///< what the camera, not being the standard observer, makes of a change of colourant
    double matrix = 0;  ///< of each entry of a matrix that disturbs XYZ and leaves white alone
};

/// Everything needed to turn a frame's linear light into XYZ under the card's light, adapted to D50.
struct Calibration {
    std::string card_name;
    Quad card_corners{};
    std::vector<PatchReading> patches;
    std::array<ToneCurve, 3> curves;  ///< a channel each: decoded linear → 1 for the perfect diffuser
    Matrix3 to_xyz_d50;               ///< calibrated linear RGB → XYZ (D50)
    XYZ white;               ///< the light's white as the uncorrected picture has it: XYZ (D50), Y = 1
    std::string tone_curve;  ///< what was done, for people
    std::string characterisation;
    LightSlope light;
    Coding coding;
    CalibrationUncertainty uncertainty;
    std::vector<Warning> warnings;

    /// The curves as linear_light wants them.
    ChannelCurves channel_curves() const;
    XYZ to_xyz(const Vector3& calibrated_rgb) const;
};

/// Calibrates on the card at `corners`. `black_level` is the code value of black in the picture's own numbers
/// (0..255, 0..65535 or 0..1); absent: taken from the steps, or 0 with a single step. Throws InputError:
/// black level out of range or as light as a step, a patch outside the picture or too small (see
/// read_patches), and when no neutral patch is usable or when the steps do not darken in the order that the
/// card file says.
Calibration calibrate_on_card(const Frame& frame, const Card& card, const Quad& corners,
                              std::optional<double> black_level = std::nullopt);
/// The same for a card in a card frame, whose paper tells more of the light.
Calibration calibrate_on_card(const Frame& frame, const Card& card, const FoundCard& found,
                              std::optional<double> black_level = std::nullopt);

}  // namespace tonemend
