#include "measure/sampling.h"

#include <algorithm>
#include <cmath>

#include "measure/normal_draws.h"

namespace tonemend {
namespace {

constexpr std::size_t least_blocks = 16, least_strips = 10, most_blocks = 4096;
constexpr int resamples = 400;

// Joins `across` × `down` cells of the base grid into one block each; blocks without pixels are dropped.
std::vector<Block> join(const BlockGrid& base, int across, int down) {
    BlockGrid joined;
    joined.columns = (base.columns + across - 1) / across;
    joined.rows = (base.rows + down - 1) / down;
    joined.blocks.resize(static_cast<std::size_t>(joined.columns) * static_cast<std::size_t>(joined.rows));
    for (int row = 0; row < base.rows; ++row) {
        for (int column = 0; column < base.columns; ++column) {
            joined.at(column / across, row / down).add(base.at(column, row));
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
            total.add(blocks[draws.index(blocks.size())]);
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

SampledMean sample_mean(const BlockGrid& base) {
    const Block total = base.total();
    const double n = total.count;
    SampledMean result;
    result.mean = total.mean();
    double pixel_variance = 0;
    for (std::size_t c = 0; c < 3; ++c) {
        const double variance = std::max(0.0, total.squares[c] / n - result.mean[c] * result.mean[c]);
        result.spread[c] = std::sqrt(variance);
        pixel_variance += variance;
    }

    std::vector<Block> widest;
    double widest_spread = -1;
    const auto consider = [&](int across, int down, std::size_t least) {
        std::vector<Block> blocks = join(base, across, down);
        if (blocks.size() < least) return;
        const double candidate = spread(blocks, result.mean, n);
        if (candidate > widest_spread) widest_spread = candidate, widest = std::move(blocks);
    };
    // Divisions finer than need be say nothing that coarser ones don't: they only break more ties.
    const auto with_pixels = static_cast<std::size_t>(std::count_if(
        base.blocks.begin(), base.blocks.end(), [](const Block& block) { return block.count > 0; }));
    int finest = 1;
    while (with_pixels / static_cast<std::size_t>(finest * finest) > most_blocks) finest *= 2;
    for (int size = finest; size <= std::max(base.columns, base.rows); size *= 2) {
        consider(size, size, least_blocks);
        consider(base.columns, size, least_strips);
        consider(size, base.rows, least_strips);
    }
    // A few scattered pixels: the finest division, whatever it holds.
    if (widest.empty()) consider(finest, finest, 2);
    result.covariance = bootstrap(widest, result.mean);
    double mean_variance = 0;
    for (std::size_t c = 0; c < 3; ++c) mean_variance += result.covariance.m[c][c];
    result.effective_samples = mean_variance > 0 ? std::min(n, pixel_variance / mean_variance) : n;
    return result;
}

}  // namespace tonemend
