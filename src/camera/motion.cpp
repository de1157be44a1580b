#include "camera/motion.h"

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <vector>

namespace tonemend {

namespace {

constexpr int cell_side = 8;  // pixels
constexpr int step = 2;       // every second pixel and row
constexpr int per_cell = 16;  // samples
constexpr float correlation =
    2;  // of JPEG's and demosaicing's noise, in standard deviations of a cell's mean
constexpr float sigmas = 6;
constexpr float least_change = 1;  // code
constexpr int least_cells = 12;
// A difference of two rounded codes: 2/12.
constexpr float rounding_variance = 1.0F / 6;
// Mean square of the cells' means over what noise makes of it.
constexpr float whole_ratio = 8;

struct Cells {
    std::vector<float> mean_square;  // of the cells' mean differences
    std::vector<float> variance;     // that noise gives such a mean
    int changed = 0;
};

struct Sums {
    int sum = 0;
    int squares = 0;
};

void add_row(const std::uint8_t* before, const std::uint8_t* now, std::vector<Sums>& cells) {
    for (Sums& cell : cells) {
        for (int k = 0; k < cell_side; k += step) {
            const int difference = now[3 * k + 1] - before[3 * k + 1];
            cell.sum += difference;
            cell.squares += difference * difference;
        }
        before += 3 * cell_side;
        now += 3 * cell_side;
    }
}

void judge(const Sums& sums, Cells& cells) {
    const float mean = static_cast<float>(sums.sum) / per_cell;
    const float spread =
        (static_cast<float>(sums.squares) - per_cell * mean * mean) / static_cast<float>(per_cell - 1);
    const float variance = std::max(spread, rounding_variance) / per_cell;
    cells.mean_square.push_back(mean * mean);
    cells.variance.push_back(variance);
    const float limit = sigmas * correlation;
    if (mean * mean > std::max(limit * limit * variance, least_change * least_change)) ++cells.changed;
}

float median(std::vector<float>& values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

}  // namespace

Motion find_motion(const Frame& before, const Frame& now) {
    Cells cells;
    std::vector<Sums> sums(static_cast<std::size_t>(now.width / cell_side));
    for (int top = 0; top + cell_side <= now.height; top += cell_side) {
        std::fill(sums.begin(), sums.end(), Sums{});
        for (int y = top; y < top + cell_side; y += step)
            add_row(reinterpret_cast<const std::uint8_t*>(before.row(y)),
                    reinterpret_cast<const std::uint8_t*>(now.row(y)), sums);
        for (const Sums& cell : sums) judge(cell, cells);
    }
    if (cells.variance.empty()) return Motion::none;
    // The median of a squared standard normal is 0.455.
    const float ratio = median(cells.mean_square) / (0.455F * median(cells.variance));
    if (ratio > whole_ratio) return Motion::whole;
    return cells.changed >= least_cells ? Motion::part : Motion::none;
}

}  // namespace tonemend
