#include "measure/block_grid.h"

#include <algorithm>

namespace tonemend {

void Block::add(const Block& other) {
    count += other.count;
    for (std::size_t c = 0; c < 3; ++c) sum[c] += other.sum[c], squares[c] += other.squares[c];
}

Block BlockGrid::total() const {
    Block total;
    for (const Block& block : blocks) total.add(block);
    return total;
}

BlockGrid sum_blocks(const RegionPixels& pixels) {
    BlockGrid grid;
    grid.side = pixels.used < 4096 ? 1 : 4;
    const int width = pixels.picture.window.width, height = pixels.picture.window.height;
    grid.columns = (width + grid.side - 1) / grid.side;
    grid.rows = (height + grid.side - 1) / grid.side;
    grid.blocks.resize(static_cast<std::size_t>(grid.columns) * static_cast<std::size_t>(grid.rows));
    const float* rgb = pixels.picture.rgb.data();
    const PixelState* state = pixels.state.data();
    for (int row = 0; row < height; ++row) {
        Block* block = &grid.at(0, row / grid.side);
        for (int start = 0; start < width; start += grid.side, ++block) {
            const int end = std::min(start + grid.side, width);
            float count = 0;
            std::array<float, 3> sum{}, squares{};
            for (int column = start; column < end; ++column, rgb += 3, ++state) {
                const bool used = *state == PixelState::used;
                count += used ? 1.0F : 0.0F;
                for (std::size_t c = 0; c < 3; ++c) {
                    // Chosen, not multiplied: a pixel that is left out may hold no number at all.
                    const float value = used ? rgb[c] : 0.0F;
                    sum[c] += value, squares[c] += value * value;
                }
            }
            block->count += static_cast<double>(count);
            for (std::size_t c = 0; c < 3; ++c) {
                block->sum[c] += static_cast<double>(sum[c]),
                    block->squares[c] += static_cast<double>(squares[c]);
            }
        }
    }
    return grid;
}

}  // namespace tonemend
