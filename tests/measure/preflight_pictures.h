#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "calibrate/calibration.h"
#include "practice/scene.h"

namespace tonemend::testing {

/// How a practice picture comes to the reader.
enum class FileKindOfShot { sixteen_bits, jpeg, raw };

/// A practice picture as a reader gets it, with what is pointed at in it.
struct Shot {
    PracticeScene scene;
    Frame frame;
    Region original, repair;
    std::optional<Quad> card_at;  ///< where a person says that the card is; absent: the frame is looked for
};

/// A card file with the greys of the six-step card and six coloured patches between them.
std::string coloured_card();

/// The options of good picture `number`: woods, cameras, tone curves, daylight-like lamps, rotations, tilts
/// to 10°, light that loses up to 1.5 % across the picture. Numbers 2k and 2k + 1 are two pictures of one
/// sitting: lamp, camera and its settings are the same, the rest is not.
PracticeOptions good_options(std::uint64_t number);
/// Sixteen bits, JPEG of quality 90 to 95, and one in ten camera raw.
FileKindOfShot file_kind(std::uint64_t number);
/// Renders and goes through the file. Raw goes through a DNG file in the temporary folder.
Shot take_shot(const PracticeOptions& options, FileKindOfShot kind);
/// Multiplies the light of the pixels in `area` by `factor`, of frames in sRGB code.
void darken(Frame& frame, const Region& area, double factor);

/// The calibration on the shot's card. The card frame is looked for unless the shot says where the card is;
/// when it is not found, the true corners stand in for a person's pointing.
Calibration calibrate_shot(const Shot& shot);
/// Every warning of the whole comparison. A picture that is refused gives one of code "refused".
std::vector<Warning> warnings_of(const Shot& shot);

}  // namespace tonemend::testing
