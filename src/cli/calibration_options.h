#pragma once

#include <memory>
#include <string>
#include <vector>

#include "calibrate/calibration.h"

namespace CLI {
class App;
}

namespace tonemend {

/// What every command that measures a picture asks about card and light.
struct CalibrationOptions {
    std::string card = "grey-card";
    std::string card_at;
    std::string black_level = "auto";
    std::string light;                 ///< as parse_light takes it, or a kept light's name; empty: not stated
    std::string lights;                ///< file of the kept lights; empty: standing_lights()
    std::vector<std::string> samples;  ///< as parse_sample takes them
    RepairColourants colourants = RepairColourants::earth;
    std::vector<std::string> flat;  ///< pictures that show how the light falls
    std::string profile;            ///< ICC profile to read the picture by, in place of its own
    std::string calibration;        ///< file of a saved calibration
};

/// Adds --card, --card-at, --black-level, --light, --lights, --colourants, --sample, --flat and --profile to
/// `command`; `options` must outlive it.
void add_calibration_options(CLI::App& command, CalibrationOptions& options);
/// Of these, what every picture of one camera and card shares: --card, --black-level, --colourants, --profile
/// and --lights.
void add_shared_options(CLI::App& command, CalibrationOptions& options);
/// Adds --calibration likewise.
void add_saved_calibration_option(CLI::App& command, CalibrationOptions& options);

/// What the options know beside the picture; all but the kept calibration. Throws InputError: an option that
/// cannot be read, and as read_flat_pictures.
CalibrationInputs read_inputs(const CalibrationOptions& options, const Card& card);

/// `light` as parse_light takes it; a kept light's name becomes what is kept for it. Throws InputError when
/// it is neither.
std::string light_text(const std::string& light, const CalibrationOptions& options);

/// Reads the picture, by --profile if that is given. Throws InputError as read_picture and read_icc_profile
/// do.
Frame read_frame(const std::string& picture, const CalibrationOptions& options);

/// Calibrates `frame` as the options say. Throws InputError: an option that cannot be read, no card found,
/// and as read_flat_pictures, calibrate_on_card and read_calibration.
Calibration calibrate(const Frame& frame, const CalibrationOptions& options);
/// The same with a calibration that was read before in place of --calibration; null: none.
Calibration calibrate_with(const Frame& frame, const CalibrationOptions& options,
                           std::shared_ptr<const KeptCalibration> kept);

}  // namespace tonemend
