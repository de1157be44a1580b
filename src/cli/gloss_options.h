#pragma once

#include <array>
#include <memory>
#include <string>
#include <vector>

#include "cli/calibration_options.h"
#include "measure/lamp_positions.h"

namespace tonemend {

/// As many pictures as one reading of gloss takes.
inline constexpr std::size_t most_lamp_positions = 6;

/// Pictures of one scene with the lamp moved, as the command line gives them.
struct LampPositionOptions {
    std::vector<std::string> pictures;
    CalibrationOptions light;  ///< its `flat`: one flat picture for each of them, or none
    std::array<std::vector<std::string>, most_lamp_positions> flat;  ///< or all those of each
};

/// Adds the pictures, what every command asks about card and light, and --flat-1 … --flat-6 to `command`;
/// `options` must outlive it.
void add_lamp_position_options(CLI::App& command, LampPositionOptions& options);

/// The pictures read and calibrated; the frames stay where they are.
struct ReadLampPositions {
    std::vector<std::unique_ptr<Frame>> frames;
    std::vector<LampPosition> positions;
};

/// Throws InputError: too few or too many pictures, flat pictures that don't fit their number, --card-at, a
/// picture without a card frame, and as calibrate_on_card.
ReadLampPositions read_lamp_positions(const LampPositionOptions& options);

}  // namespace tonemend
