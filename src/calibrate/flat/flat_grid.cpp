#include "calibrate/flat/flat_grid.h"

#include <algorithm>
#include <cmath>

namespace tonemend {
namespace {

// The interval of `count` nodes that `at` (0 at the first, 1 a node) lies in, and how far along it is.
struct Interval {
    int low;
    double share;
};

Interval interval(double at, int count) {
    const double inside = std::clamp(at, 0.0, static_cast<double>(count - 1));
    const int low = std::min(static_cast<int>(inside), count - 2);
    return {low, inside - low};
}

}  // namespace

FlatGrid::FlatGrid(const FlatField& field) : width(field.width), height(field.height) {
    gains.reserve(std::size_t{3} * columns * rows);
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column) {
            const Vector3 light = field.light_at({static_cast<double>(column) * width / (columns - 1),
                                                  static_cast<double>(row) * height / (rows - 1)});
            for (const double value : light) gains.push_back(static_cast<float>(1 / value));
        }
}

Vector3 FlatGrid::gain_at(const Point& place) const {
    const Interval x = interval(place.x / width * (columns - 1), columns);
    const Interval y = interval(place.y / height * (rows - 1), rows);
    const auto node = [&](int column, int row, std::size_t c) {
        return double{gains[3 * static_cast<std::size_t>(row * columns + column) + c]};
    };
    Vector3 gain{};
    for (std::size_t c = 0; c < 3; ++c) {
        const double above =
            node(x.low, y.low, c) + x.share * (node(x.low + 1, y.low, c) - node(x.low, y.low, c));
        const double below =
            node(x.low, y.low + 1, c) + x.share * (node(x.low + 1, y.low + 1, c) - node(x.low, y.low + 1, c));
        gain[c] = above + y.share * (below - above);
    }
    return gain;
}

void even_out(LinearPicture& picture, const FlatField& field) {
    const FlatGrid grid(field);
    const PixelRect& window = picture.window;
    // Along a row the gain is straight between the nodes, so a step a pixel leads from one to the next.
    float* rgb = picture.rgb.data();
    for (int row = 0; row < window.height; ++row) {
        const double y = window.y + row + 0.5;
        int column = 0;
        while (column < window.width) {
            const double at = (window.x + column + 0.5) / grid.width * (FlatGrid::columns - 1);
            const double next_node = (std::floor(at) + 1) * grid.width / (FlatGrid::columns - 1);
            const int end = std::clamp(static_cast<int>(std::floor(next_node + 0.5)) - window.x, column + 1,
                                       window.width);
            const Vector3 first = grid.gain_at({window.x + column + 0.5, y});
            const Vector3 last = grid.gain_at({window.x + end - 0.5, y});
            const double steps = std::max(1, end - 1 - column);
            for (int x = column; x < end; ++x)
                for (std::size_t c = 0; c < 3; ++c)
                    *rgb++ *= static_cast<float>(first[c] + (last[c] - first[c]) * (x - column) / steps);
            column = end;
        }
    }
}

}  // namespace tonemend
