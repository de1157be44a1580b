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

// Whether parts of the picture differ by more than its noise.
bool differ(const MotionGrid& before, const MotionGrid& now) {
    std::vector<float> squares(now.codes.size());
    for (std::size_t i = 0; i < squares.size(); ++i) {
        const float difference = now.codes[i] - before.codes[i];
        squares[i] = difference * difference;
    }
    const auto middle = squares.begin() + static_cast<std::ptrdiff_t>(squares.size() / 2);
    std::nth_element(squares.begin(), middle, squares.end());
    const float variance = *middle / median_of_square;
    const float limit = std::max(sigmas * sigmas * variance, least_jump * least_jump);
    const auto changed =
        std::count_if(squares.begin(), squares.end(), [&](float square) { return square > limit; });
    if (changed >= least_cells) return true;
    const float block_limit = std::max(sigmas * std::sqrt(variance) / block_cells, least_block_jump);
    return count_changed_blocks(before, now, block_limit) >= least_blocks;
}

// `now` as it would be had each of its rows the light that it had before.
MotionGrid under_light_of(const MotionGrid& before, const MotionGrid& now) {
    MotionGrid scaled = now;
    const auto columns = static_cast<std::size_t>(now.columns);
    std::vector<float> ratios(columns);
    for (std::size_t row = 0; row < static_cast<std::size_t>(now.rows); ++row) {
        float* codes = scaled.codes.data() + row * columns;
        // Black that stays black has no ratio.
        for (std::size_t i = 0; i < columns; ++i)
            ratios[i] = (before.codes[row * columns + i] + 1) / (codes[i] + 1);
        const auto middle = ratios.begin() + static_cast<std::ptrdiff_t>(columns / 2);
        std::nth_element(ratios.begin(), middle, ratios.end());
        for (std::size_t i = 0; i < columns; ++i) codes[i] *= *middle;
    }
    return scaled;
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
    if (differ(before, now))
        return differ(before, under_light_of(before, now)) ? Motion::moved : Motion::light_changed;
    double sum = 0;
    for (std::size_t i = 0; i < now.codes.size(); ++i) sum += now.codes[i] - before.codes[i];
    return std::abs(sum / static_cast<double>(now.codes.size())) > least_light ? Motion::light_changed
                                                                               : Motion::none;
}

}  // namespace tonemend
