#pragma once

#include <vector>

#include "calibrate/card/find_card.h"
#include "colour/matrix3.h"
#include "picture/frame.h"

namespace tonemend {

/// A small spot of the card frame's bare paper, in the picture's own linear light.
struct PaperSpot {
    Point place;      ///< its middle, picture pixels
    Vector3 light{};  ///< mean linear R, G, B

    double brightness() const { return light[0] + light[1] + light[2]; }
};

/// The margin around the sheet's markers as a chain of spots of about 5 × 5 mm, clockwise from the top left:
/// nothing is printed there. Spots that lie outside the picture, are clipped in more than one pixel in fifty,
/// or show less than a fifth of the median brightness (no paper there) are left out. Each is read on a
/// lattice of at most 12 × 12 pixels.
std::vector<PaperSpot> read_paper_rim(const Frame& frame, const FoundCard& found);

}  // namespace tonemend
