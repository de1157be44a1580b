#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "calibrate/card/card.h"
#include "calibrate/card/find_card.h"
#include "calibrate/flat/flat_field.h"
#include "calibrate/flat/flat_samples.h"
#include "calibrate/flat/light_slope.h"
#include "calibrate/model/characterisation.h"
#include "calibrate/model/local_correction.h"
#include "calibrate/stated_facts.h"
#include "calibrate/tone/coding.h"
#include "calibrate/tone/patch_reading.h"
#include "calibrate/tone/tone_curve.h"
#include "calibrate/warning.h"
#include "picture/frame.h"
#include "picture/linear_picture.h"

namespace tonemend {

struct KeptCalibration;

/// What a calibration may be wrong by; standard uncertainties (JCGM 100:2008), each for a normal error.
struct CalibrationUncertainty {
    double step =
        0;  ///< of each neutral step's value in each channel, relative; its reading's own comes on top
    double card = 0;  ///< of the card as a whole, relative: every step lighter or darker than stated
    double exponent =
        0;  ///< of an unknown tone curve, as the exponent of a power law fixed at the card's brightest step
    double black = 0;  ///< of an unknown black level, as a share of white
};

/// Everything needed to turn a frame's linear light into XYZ under the card's light, adapted to D50.
struct Calibration {
    std::string card_name;
    Quad card_corners{};
    std::vector<PatchReading> patches;
    std::array<ToneCurve, 3> curves;  ///< a channel each: decoded linear → 1 for the perfect diffuser
    XYZ white;               ///< the light's white as the uncorrected picture has it: XYZ (D50), Y = 1
    std::string tone_curve;  ///< what was done, for people
    Characterisation characterisation;
    LocalCorrection local;                ///< by samples of known colour
    LightSlope light;                     ///< what is left of it after the flat field
    std::optional<FlatField> flat_field;  ///< by which the light was evened out
    Coding coding;
    CalibrationUncertainty uncertainty;
    StatedFacts stated;  ///< that it was made with
    std::shared_ptr<const KeptCalibration>
        kept;  ///< that the characterisation comes from; null: from this card
    std::vector<Warning> warnings;

    /// The curves as linear_light wants them.
    ChannelCurves channel_curves() const;
    XYZ to_xyz(const Vector3& calibrated_rgb) const { return characterisation.model.to_xyz(calibrated_rgb); }
    /// Calibrated RGB of a patch, evened out.
    Vector3 light_of(const PatchReading& reading) const;
    /// CIELAB (D50) of a wood of that side, with the correction by samples.
    Lab lab(const Vector3& calibrated_rgb, SampleSide side) const;
};

/// What is known beside the picture and its card: what its user states, and what was measured before.
struct CalibrationInputs : StatedFacts {
    /// A calibration made before: its characterisation serves in place of one fitted to this picture's card,
    /// which still gives curves and white.
    std::shared_ptr<const KeptCalibration> kept;
    /// Pictures that show how the light falls; a surface is fitted to them through the curves of this
    /// picture.
    std::shared_ptr<const FlatSamples> flat_samples;
    /// A surface that was fitted before; it wins over `flat_samples`.
    std::shared_ptr<const FlatField> flat_field;
};

/// Calibrates on the card at `corners`. Throws InputError: black level out of range or as light as a step, a
/// sample (see read_samples), a patch outside the picture or too small (see read_patches), and when no
/// neutral patch is usable or when the steps do not darken in the order that the card file says; flat
/// pictures of another size, and as fit_flat_field.
Calibration calibrate_on_card(const Frame& frame, const Card& card, const Quad& corners,
                              const CalibrationInputs& inputs = {});
/// The same for a card in a card frame, whose paper tells more of the light.
Calibration calibrate_on_card(const Frame& frame, const Card& card, const FoundCard& found,
                              const CalibrationInputs& inputs = {});

/// The same from patches that were read before, in a picture of which only name, size, type, encoding and
/// facts are asked for. The light's slope comes from the patches.
Calibration calibrate_on_readings(const Frame& frame, const std::string& card_name,
                                  std::vector<PatchReading> patches, const CalibrationInputs& inputs = {});

}  // namespace tonemend
