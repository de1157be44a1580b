#include "measure/gloss_cells.h"

#include <algorithm>
#include <cmath>

namespace tonemend {
namespace {

constexpr double squares_along = 24;
constexpr int smallest_side = 6, largest_side = 48;
constexpr double most_clipped = 0.1;  // of a square, in a picture that serves there
constexpr double least_filled = 0.4;  // of what of a square lies in the region
constexpr double least_pixels = 4;
constexpr double far_over = 9;        // times the median
constexpr double whole_square = 0.9;  // of a square, to tell noise by

int even_side(std::size_t pixels) {
    const int side = static_cast<int>(std::sqrt(static_cast<double>(pixels)) / squares_along);
    return std::clamp(side, smallest_side, largest_side) / 2 * 2;
}

// One square while it is looked at.
struct Square {
    int left, top, right, bottom;  // columns and rows of the region's window

    template <typename Visit>
    void each(int width, Visit visit) const {
        for (int y = top; y < bottom; ++y)
            for (int x = left; x < right; ++x)
                visit(static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                          static_cast<std::size_t>(x),
                      x, y);
    }
};

std::vector<char> pictures_that_serve(const LaidOver& laid, const Square& square, int width, double inside) {
    std::vector<char> there;
    for (const RegionPixels& pixels : laid.pixels) {
        int clipped = 0;
        square.each(width, [&](std::size_t i, int, int) {
            clipped += pixels.state[i] == PixelState::clipped ? 1 : 0;
        });
        there.push_back(clipped <= most_clipped * inside ? 1 : 0);
    }
    return there;
}

bool serves(const LaidOver& laid, const std::vector<char>& there, std::size_t i) {
    if (laid.pixels.front().state[i] == PixelState::outside) return false;
    for (std::size_t p = 0; p < there.size(); ++p)
        if (there[p] != 0 && laid.pixels[p].state[i] == PixelState::clipped) return false;
    return true;
}

struct Quarter {
    double pixels = 0;
    std::vector<Vector3> sum;
};

// Adds the scatter of the quarters' light about their square's, the mean over the pictures taken off.
void add_scatter(const std::array<Quarter, 4>& quarters, const GlossCell& cell,
                 std::vector<Matrix3>& scatters) {
    const std::size_t pictures = cell.light.size();
    if (cell.pictures() < static_cast<int>(pictures)) return;
    for (const Quarter& quarter : quarters)
        if (quarter.pixels < cell.pixels / 8) return;
    const Vector3 mean = cell.mean();
    Matrix3& sum = scatters.emplace_back();
    for (const Quarter& quarter : quarters) {
        Vector3 quarter_mean{};
        for (const Vector3& light : quarter.sum)
            for (std::size_t c = 0; c < 3; ++c)
                quarter_mean[c] += light[c] / quarter.pixels / static_cast<double>(pictures);
        for (std::size_t p = 0; p < pictures; ++p) {
            Vector3 off{};
            for (std::size_t c = 0; c < 3; ++c)
                off[c] = quarter.sum[p][c] / quarter.pixels - quarter_mean[c] - (cell.light[p][c] - mean[c]);
            for (std::size_t r = 0; r < 3; ++r)
                for (std::size_t c = 0; c < 3; ++c) sum.m[r][c] += off[r] * off[c];
        }
    }
}

double trace_of(const Matrix3& matrix) {
    return matrix.m[0][0] + matrix.m[1][1] + matrix.m[2][2];
}

// The mean of those that are not far over the median: at the edge of a mirrored lamp it is no noise that
// makes the quarters differ.
Matrix3 ordinary_scatter(const std::vector<Matrix3>& scatters) {
    Matrix3 mean;
    if (scatters.empty()) return mean;
    std::vector<double> traces;
    for (const Matrix3& scatter : scatters) traces.push_back(trace_of(scatter));
    const auto middle = traces.begin() + static_cast<std::ptrdiff_t>(traces.size() / 2);
    std::nth_element(traces.begin(), middle, traces.end());
    double count = 0;
    for (const Matrix3& scatter : scatters) {
        if (trace_of(scatter) > far_over * *middle) continue;
        for (std::size_t r = 0; r < 3; ++r)
            for (std::size_t c = 0; c < 3; ++c) mean.m[r][c] += scatter.m[r][c];
        ++count;
    }
    for (auto& line : mean.m)
        for (double& entry : line) entry /= count;
    return mean;
}

}  // namespace

int GlossCell::pictures() const {
    return static_cast<int>(std::count(there.begin(), there.end(), 1));
}

Vector3 GlossCell::mean() const {
    Vector3 mean{};
    for (std::size_t p = 0; p < light.size(); ++p)
        for (std::size_t c = 0; c < 3; ++c)
            if (there[p] != 0) mean[c] += light[p][c] / pictures();
    return mean;
}

GlossCells cut_into_cells(const LaidOver& laid) {
    return cut_into_cells(laid, even_side(laid.pixels.front().inside()));
}

GlossCells cut_into_cells(const LaidOver& laid, int side) {
    const RegionPixels& first = laid.pixels.front();
    const int width = first.picture.window.width, height = first.picture.window.height;
    GlossCells grid;
    grid.side = side;
    grid.columns = (width + grid.side - 1) / grid.side, grid.rows = (height + grid.side - 1) / grid.side;
    std::vector<Matrix3> scatters;
    for (int row = 0; row < grid.rows; ++row) {
        for (int column = 0; column < grid.columns; ++column) {
            const Square square{column * grid.side, row * grid.side,
                                std::min((column + 1) * grid.side, width),
                                std::min((row + 1) * grid.side, height)};
            GlossCell& cell = grid.cells.emplace_back();
            double inside = 0;
            square.each(width, [&](std::size_t i, int, int) {
                inside += first.state[i] == PixelState::outside ? 0 : 1;
            });
            cell.there = pictures_that_serve(laid, square, width, inside);
            cell.light.assign(laid.pixels.size(), {});
            std::array<Quarter, 4> quarters;
            for (Quarter& quarter : quarters) quarter.sum.assign(laid.pixels.size(), {});
            square.each(width, [&](std::size_t i, int x, int y) {
                if (!serves(laid, cell.there, i)) return;
                Quarter& quarter = quarters[static_cast<std::size_t>(2 * ((y - square.top) * 2 / grid.side) +
                                                                     (x - square.left) * 2 / grid.side)];
                ++quarter.pixels;
                for (std::size_t p = 0; p < laid.pixels.size(); ++p)
                    for (std::size_t c = 0; c < 3; ++c)
                        quarter.sum[p][c] += static_cast<double>(laid.pixels[p].picture.rgb[3 * i + c]);
            });
            for (const Quarter& quarter : quarters) {
                cell.pixels += quarter.pixels;
                for (std::size_t p = 0; p < cell.light.size(); ++p)
                    for (std::size_t c = 0; c < 3; ++c) cell.light[p][c] += quarter.sum[p][c];
            }
            if (cell.pictures() == 0 || cell.pixels < std::max(least_filled * inside, least_pixels)) {
                cell.pixels = 0;
                continue;
            }
            for (Vector3& light : cell.light)
                for (double& channel : light) channel /= cell.pixels;
            if (cell.pixels >= whole_square * grid.side * grid.side) add_scatter(quarters, cell, scatters);
        }
    }
    // Of a mean of four: their scatter by three degrees of freedom, divided by four; a picture each.
    grid.noise = ordinary_scatter(scatters);
    for (auto& line : grid.noise.m)
        for (double& entry : line) entry /= 3 * 4 * static_cast<double>(laid.pixels.size());
    return grid;
}

}  // namespace tonemend
