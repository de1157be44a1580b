#include "camera/motion.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace tonemend {

namespace {

constexpr int cell_side = 16;  // pixels
constexpr int row_step = 2;
constexpr int samples_across = 3 * cell_side;
constexpr float samples_per_cell = samples_across * cell_side / row_step;

constexpr float sigmas = 7;
constexpr float least_jump = 2.5F;  // codes
constexpr int least_cells = 6;
constexpr int block_cells = 4;  // a side
constexpr float least_block_jump = 0.6F;
constexpr int least_blocks = 2;
constexpr double least_light = 0.3;  // codes
// The median of a squared standard normal.
constexpr float median_of_square = 0.455F;

int sum_of(const std::uint8_t* samples) {
    int sum = 0;
    for (int i = 0; i < samples_across; ++i) sum += samples[i];
    return sum;
}

// Blocks of cells whose mean has changed by more than `limit` codes.
int count_changed_blocks(const MotionGrid& before, const MotionGrid& now, float limit) {
    constexpr float cells = block_cells * block_cells;
    int changed = 0;
    for (int top = 0; top + block_cells <= now.rows; top += block_cells)
        for (int left = 0; left + block_cells <= now.columns; left += block_cells) {
            float sum = 0;
            for (int row = top; row < top + block_cells; ++row)
                for (int column = left; column < left + block_cells; ++column) {
                    const auto cell = static_cast<std::size_t>(row * now.columns + column);
                    sum += now.codes[cell] - before.codes[cell];
                }
            if (std::abs(sum) > limit * cells) ++changed;
        }
    return changed;
}

}  // namespace

MotionGrid reduce_for_motion(const Frame& frame) {
    MotionGrid grid;
    grid.columns = frame.width / cell_side;
    grid.rows = frame.height / cell_side;
    const auto columns = static_cast<std::size_t>(grid.columns);
    grid.codes.reserve(columns * static_cast<std::size_t>(grid.rows));
    std::vector<int> sums(columns);
    for (int row = 0; row < grid.rows; ++row) {
        std::fill(sums.begin(), sums.end(), 0);
        for (int y = 0; y < cell_side; y += row_step) {
            const auto* samples = reinterpret_cast<const std::uint8_t*>(frame.row(row * cell_side + y));
            for (std::size_t i = 0; i < columns; ++i) sums[i] += sum_of(samples + samples_across * i);
        }
        for (const int sum : sums) grid.codes.push_back(static_cast<float>(sum) / samples_per_cell);
    }
    return grid;
}

Motion find_motion(const MotionGrid& before, const MotionGrid& now) {
    if (now.codes.empty()) return Motion::none;
    std::vector<float> squares(now.codes.size());
    double sum = 0;
    for (std::size_t i = 0; i < squares.size(); ++i) {
        const float difference = now.codes[i] - before.codes[i];
        sum += difference;
        squares[i] = difference * difference;
    }
    const auto middle = squares.begin() + static_cast<std::ptrdiff_t>(squares.size() / 2);
    std::nth_element(squares.begin(), middle, squares.end());
    const float variance = *middle / median_of_square;
    const float limit = std::max(sigmas * sigmas * variance, least_jump * least_jump);
    const auto jumps =
        std::count_if(squares.begin(), squares.end(), [&](float square) { return square > limit; });
    if (jumps >= least_cells) return Motion::moved;
    const float block_limit = std::max(sigmas * std::sqrt(variance) / block_cells, least_block_jump);
    if (count_changed_blocks(before, now, block_limit) >= least_blocks) return Motion::moved;
    const double light = sum / static_cast<double>(squares.size());
    return std::abs(light) > least_light ? Motion::light_changed : Motion::none;
}

}  // namespace tonemend
