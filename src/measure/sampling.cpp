#include "measure/sampling.h"

#include <algorithm>
#include <cmath>

#include "measure/normal_draws.h"

namespace tonemend {
namespace {

constexpr std::size_t least_blocks = 16;
constexpr int resamples = 400;

struct Block {
    double count = 0;
    Vector3 sum{};
};

struct Grid {
    int columns = 0, rows = 0;
    std::vector<Block> blocks;

    Block& at(int column, int row) {
        return blocks[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) + static_cast<std::size_t>(column)];
    }
};

Grid base_grid(const RegionPixels& pixels, int side) {
    Grid grid;
    grid.columns = (pixels.picture.window.width + side - 1) / side;
    grid.rows = (pixels.picture.window.height + side - 1) / side;
    grid.blocks.resize(static_cast<std::size_t>(grid.columns) * static_cast<std::size_t>(grid.rows));
    for_each_used(pixels, [&](int column, int row, const float* rgb) {
        Block& block = grid.at(column / side, row / side);
        block.count += 1;
        for (std::size_t c = 0; c < 3; ++c) block.sum[c] += static_cast<double>(rgb[c]);
    });
    return grid;
}

// Joins `across` × `down` cells of the base grid into one block each; blocks without pixels are dropped.
std::vector<Block> join(Grid& base, int across, int down) {
    Grid joined;
    joined.columns = (base.columns + across - 1) / across;
    joined.rows = (base.rows + down - 1) / down;
    joined.blocks.resize(static_cast<std::size_t>(joined.columns) * static_cast<std::size_t>(joined.rows));
    for (int row = 0; row < base.rows; ++row) {
        for (int column = 0; column < base.columns; ++column) {
            const Block& from = base.at(column, row);
            Block& to = joined.at(column / across, row / down);
            to.count += from.count;
            for (std::size_t c = 0; c < 3; ++c) to.sum[c] += from.sum[c];
        }
    }
    std::erase_if(joined.blocks, [](const Block& block) { return block.count == 0; });
    return std::move(joined.blocks);
}

// Variance of the ratio estimator Σsum/Σcount over independent blocks, summed over the channels.
double spread(const std::vector<Block>& blocks, const Vector3& mean, double pixels) {
    double sum = 0;
    for (const Block& block : blocks) {
        for (std::size_t c = 0; c < 3; ++c) sum += std::pow(block.sum[c] - block.count * mean[c], 2);
    }
    const double n = static_cast<double>(blocks.size());
    return sum / (pixels * pixels) * n / (n - 1);
}

Matrix3 bootstrap(const std::vector<Block>& blocks, const Vector3& mean) {
    NormalDraws draws(20150422);
    Matrix3 covariance;
    for (int i = 0; i < resamples; ++i) {
        Block total;
        for (std::size_t k = 0; k < blocks.size(); ++k) {
            const Block& block = blocks[draws.index(blocks.size())];
            total.count += block.count;
            for (std::size_t c = 0; c < 3; ++c) total.sum[c] += block.sum[c];
        }
        Vector3 deviation{};
        for (std::size_t c = 0; c < 3; ++c) deviation[c] = total.sum[c] / total.count - mean[c];
        for (std::size_t r = 0; r < 3; ++r) {
            for (std::size_t c = 0; c < 3; ++c) covariance.m[r][c] += deviation[r] * deviation[c] / resamples;
        }
    }
    return covariance;
}

}  // namespace

SampledMean sample_mean(const RegionPixels& pixels) {
    const int side = pixels.used < 4096 ? 1 : 4;
    Grid base = base_grid(pixels, side);
    const double n = static_cast<double>(pixels.used);
    SampledMean result;
    for (const Block& block : base.blocks) {
        for (std::size_t c = 0; c < 3; ++c) result.mean[c] += block.sum[c] / n;
    }
    Vector3 variance{};
    for_each_used(pixels, [&](int, int, const float* rgb) {
        for (std::size_t c = 0; c < 3; ++c) {
            const double deviation = static_cast<double>(rgb[c]) - result.mean[c];
            variance[c] += deviation * deviation;
        }
    });
    for (std::size_t c = 0; c < 3; ++c) result.spread[c] = std::sqrt(variance[c] / n);
    const double pixel_variance = (variance[0] + variance[1] + variance[2]) / n;

    std::vector<Block> widest;
    double widest_spread = -1;
    const auto consider = [&](int across, int down) {
        std::vector<Block> blocks = join(base, across, down);
        if (blocks.size() < least_blocks) return;
        const double candidate = spread(blocks, result.mean, n);
        if (candidate > widest_spread) widest_spread = candidate, widest = std::move(blocks);
    };
    for (int size = 1; size <= std::max(base.columns, base.rows); size *= 2) {
        consider(size, size);
        consider(base.columns, size);
        consider(size, base.rows);
    }
    result.covariance = bootstrap(widest, result.mean);
    double mean_variance = 0;
    for (std::size_t c = 0; c < 3; ++c) mean_variance += result.covariance.m[c][c];
    result.effective_samples = mean_variance > 0 ? std::min(n, pixel_variance / mean_variance) : n;
    return result;
}

}  // namespace tonemend
