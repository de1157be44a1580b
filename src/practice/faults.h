#pragma once

namespace tonemend {

/// What goes wrong in front of a camera and inside it, for pictures that must be warned of. The defaults are
/// no faults at all.
struct PracticeFaults {
    double shadow_percent = 0;  ///< of the light, lost in a shadow that begins on the card, 0..95
    double shadow_share = 0.5;  ///< of the card's sheet that lies in it, 0..1
    double shadow_angle = 0;    ///< degrees from the x axis towards y: which way the shadow lies, −360..360

    double lamp_gradient =
        0;  ///< how much the second lamp's share grows from the left edge to the right, 0..1

    double banding_percent = 0;   ///< peak to peak, of the light, 0..90
    double banding_period = 0.1;  ///< from band to band, as a share of the picture's height, 0.005..1
    double banding_phase = 0;     ///< degrees, −360..360

    double glint_percent =
        0;                 ///< of the lamp's light, mirrored by the middle of a spot of the repair, 0..100
    double card_size = 1;  ///< times the size that fits the picture, 0.05..1

    double saturation = 1;    ///< times every colour's distance from grey, 0..2
    double hue_twist = 0;     ///< degrees that every hue is turned, −60..60
    double tint_percent = 0;  ///< yellow in the lights and blue in the shadows, −30..30
    double local_tones = 0;  ///< how far surroundings are evened out, 0..0.8: light times surroundings^−this
    int first_jpeg_quality = 0;  ///< of a JPEG that the picture was before, 1..100; 0: it was none

    bool operator==(const PracticeFaults&) const = default;
};

/// Throws InputError, naming the option and its range, unless every number is within it.
void require_valid(const PracticeFaults& faults);

}  // namespace tonemend
