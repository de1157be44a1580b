#pragma once

#include <vector>

#include "colour/matrix3.h"
#include "measure/region_pixels.h"

namespace tonemend {

/// The used pixels of one small square of a region, summed.
struct Block {
    double count = 0;
    Vector3 sum{};      ///< of calibrated linear RGB
    Vector3 squares{};  ///< of their squares

    void add(const Block& other);
    Vector3 mean() const { return {sum[0] / count, sum[1] / count, sum[2] / count}; }
};

/// A region as a grid of small squares: one walk over the pixels from which everything that needs no single
/// pixel is taken.
struct BlockGrid {
    int side = 0;  ///< of a square, in pixels
    int columns = 0, rows = 0;
    std::vector<Block> blocks;  ///< rows × columns; squares without used pixels have count 0

    Block& at(int column, int row) { return blocks[index(column, row)]; }
    const Block& at(int column, int row) const { return blocks[index(column, row)]; }
    Block total() const;

  private:
    std::size_t index(int column, int row) const {
        return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
               static_cast<std::size_t>(column);
    }
};

/// Squares of four pixels; of one pixel for regions under 4096 pixels.
BlockGrid sum_blocks(const RegionPixels& pixels);

}  // namespace tonemend
