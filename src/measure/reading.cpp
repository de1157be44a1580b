#include "measure/reading.h"

#include <algorithm>

#include "colour/difference.h"
#include "measure/block_grid.h"
#include "measure/region_pixels.h"

namespace tonemend {
namespace {

// Sums the grid by columns or by rows.
std::vector<Block> sum_lines(const BlockGrid& grid, bool by_columns) {
    std::vector<Block> lines(static_cast<std::size_t>(by_columns ? grid.columns : grid.rows));
    for (int row = 0; row < grid.rows; ++row) {
        for (int column = 0; column < grid.columns; ++column) {
            lines[static_cast<std::size_t>(by_columns ? column : row)].add(grid.at(column, row));
        }
    }
    return lines;
}

// Cuts the region into two halves of about as many pixels, side by side and one above the other, and compares
// the halves; the worse counts.
double blank_reading(const BlockGrid& grid, const Calibration& calibration, SampleSide side) {
    double worst = 0;
    for (const bool by_columns : {true, false}) {
        const double half = grid.total().count / 2;
        Block first, second;
        for (const Block& line : sum_lines(grid, by_columns)) {
            (first.count + line.count / 2 < half ? first : second).add(line);
        }
        if (first.count == 0 || second.count == 0) continue;
        worst = std::max(
            worst,
            ciede2000(calibration.lab(first.mean(), side), calibration.lab(second.mean(), side)).value);
    }
    return worst;
}

Point centre_of(const BlockGrid& grid, const PixelRect& window) {
    double x = 0, y = 0, n = 0;
    for (int row = 0; row < grid.rows; ++row) {
        for (int column = 0; column < grid.columns; ++column) {
            const double count = grid.at(column, row).count;
            x += count * (column + 0.5) * grid.side, y += count * (row + 0.5) * grid.side, n += count;
        }
    }
    return {window.x + x / n, window.y + y / n};
}

}  // namespace

Reading read_pixels(RegionPixels& pixels, const Calibration& calibration, const Region& region,
                    SampleSide side) {
    Reading reading;
    reading.glare = gauge_glare(pixels);
    mark_glare(pixels, reading.glare);
    reading.region = region;
    reading.side = side;
    const BlockGrid grid = sum_blocks(pixels);
    reading.sampled = sample_mean(grid);
    reading.lab = calibration.lab(reading.sampled.mean, side);
    reading.ground = reading.figure = reading.lab;
    reading.split = split_ground_and_figure(pixels, reading.sampled.effective_samples);
    if (reading.split) {
        reading.figure_share = reading.split->figure_share;
        reading.ground = calibration.lab(reading.split->ground, side);
        reading.figure = calibration.lab(reading.split->figure, side);
    }
    reading.blank_de2000 = blank_reading(grid, calibration, side);
    reading.pixels = pixels.used;
    reading.rejected_clipped = pixels.clipped;
    reading.rejected_glare = pixels.glare;
    reading.centre = centre_of(grid, pixels.picture.window);
    return reading;
}

Reading read_region(const Frame& frame, const Calibration& calibration, const Region& region,
                    const std::string& role, SampleSide side) {
    RegionPixels pixels = collect_pixels(frame, calibration, region, role);
    return read_pixels(pixels, calibration, region, side);
}

}  // namespace tonemend
