#pragma once

#include <vector>

#include "colour/matrix3.h"
#include "measure/lamp_positions.h"

namespace tonemend {

/// R + G + B.
inline double brightness_of(const Vector3& rgb) {
    return rgb[0] + rgb[1] + rgb[2];
}

/// A small square of a region, as each picture shows it.
struct GlossCell {
    double pixels = 0;           ///< that serve: inside the region, unclipped in every picture that is there
    std::vector<Vector3> light;  ///< a picture each: their mean calibrated light
    std::vector<char> there;     ///< a picture each: 0 where more than a tenth of the square is clipped
    int pictures() const;        ///< that are there
    Vector3 mean() const;        ///< over the pictures that are there
};

/// A region cut into squares. Gloss is told from means over them, never from single pixels: the least of
/// noisy pixels would be too dark by half their noise.
struct GlossCells {
    int side = 0;  ///< of a square, pixels, even
    int columns = 0, rows = 0;
    std::vector<GlossCell> cells;  ///< by rows; squares that don't serve have 0 pixels
    /// Covariance of a whole square's mean light in one picture, once the mean over the pictures is taken
    /// off: noise and what registration leaves of the grain, from how the quarters of the squares scatter.
    Matrix3 noise;

    const GlossCell& at(int column, int row) const {
        return cells[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
                     static_cast<std::size_t>(column)];
    }
};

/// About 24 squares along the region's side, of 6 to 48 pixels each.
GlossCells cut_into_cells(const LaidOver& laid);
/// The same in squares of `side` pixels, an even number.
GlossCells cut_into_cells(const LaidOver& laid, int side);

}  // namespace tonemend
