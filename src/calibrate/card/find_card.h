#pragma once

#include <optional>

#include "calibrate/card/card_frame.h"
#include "colour/matrix3.h"
#include "picture/frame.h"
#include "picture/geometry.h"

namespace tonemend {

/// A card frame as found in a picture.
struct FoundCard {
    Quad window{};               ///< the window's corners in picture pixels: the card's TL, TR, BR, BL
    CardFrame frame;             ///< which of card_frames() it is
    Matrix3 sheet_to_picture{};  ///< projective map from sheet millimetres to picture pixels
    int markers = 0;             ///< 4, or 3 when something hides one
    double corner_error_px =
        0;  ///< rms distance of the markers' corners from that map: paper not flat, lens, noise
    double tilt_degrees =
        0;  ///< between the sheet's normal and the camera's axis; for a lens whose focal length
            ///< is 1.2 times the picture's long side: an estimate, good to a few degrees
};

/// Finds the card frame at any rotation and at tilts up to about 40°, from its markers alone. Empty when
/// three markers of one size are not seen in their places, when one that is seen is out of place, or when two
/// sheets of one size are in the picture. Costs a search of the picture at about a thousand pixels' length;
/// finer only when that finds nothing.
std::optional<FoundCard> find_card(const Frame& frame);

}  // namespace tonemend
