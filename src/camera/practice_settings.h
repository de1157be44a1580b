#pragma once

#include "practice/options.h"

namespace tonemend {

/// What the repair's surface is like at the moment.
enum class Surface {
    dry,
    wet,  ///< under a film of liquid: darker, deeper in colour, and some of the lamp mirrored
};

/// A lamp that beats with the mains: each frame, and each row of it under a shutter that rolls, catches
/// another moment of it.
struct PracticeFlicker {
    double swing_percent = 0;    ///< peak to peak, of the light, 0..90
    double turns_a_frame = 0.3;  ///< periods of the beat from one frame to the next
    double turns_a_height = 0;   ///< from the picture's top to its bottom; 0: all rows at once

    bool operator==(const PracticeFlicker&) const = default;
};

/// What can be changed on the live practice bench while it runs.
struct PracticeSettings {
    PracticeOptions bench =
        live_bench();  ///< lamps, fall-off, difference, card's pose, camera and its faults; always 8 bits
    double repair_amount = 1;  ///< times the colourants of the repair's recipe, 0..10
    Surface repair_surface = Surface::dry;
    double card_right = 0, card_down = 0;  ///< pixels that the card is moved from where it was laid
    PracticeFlicker flicker;

    bool operator==(const PracticeSettings&) const = default;

    /// A full high-definition picture of raw, stained wood with a clear difference; white balance held.
    static PracticeOptions live_bench();
};

}  // namespace tonemend
