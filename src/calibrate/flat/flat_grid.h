#pragma once

#include <vector>

#include "calibrate/flat/flat_field.h"
#include "picture/linear_picture.h"

namespace tonemend {

/// What evens out the light, as a lattice over the picture between whose nodes straight lines stand for the
/// surface: off by less than 1e-4 where the light falls by 30 %. Twin of shaders/flat_field.glsl.
struct FlatGrid {
    static constexpr int columns = 65, rows = 49;

    int width = 0, height = 0;  ///< of the picture; node 0 lies on its edge, the last on the opposite one
    std::vector<float> gains;   ///< rows × columns × 3: what light is multiplied by

    explicit FlatGrid(const FlatField& field);
    /// At a place in picture pixels; one outside counts as the nearest on the edge.
    Vector3 gain_at(const Point& place) const;
};

/// Multiplies every pixel of `picture` by the gain at its middle.
void even_out(LinearPicture& picture, const FlatField& field);

}  // namespace tonemend
