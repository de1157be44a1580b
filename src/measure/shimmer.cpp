#include "measure/shimmer.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <Eigen/Dense>

namespace tonemend {
namespace {

constexpr std::size_t least_squares = 32;
constexpr int tiles = 4;  // a side: the region's parts that say how well the whole is known
constexpr std::size_t all_tiles = std::size_t{tiles} * tiles;

// Logarithms of light without gloss, a row a square that every picture shows, the mean over pictures taken
// off.
struct LogLight {
    Eigen::MatrixXd of;             // squares × pictures
    Eigen::MatrixXd plane;          // squares × 3: 1, x, y
    std::vector<std::size_t> tile;  // of each square
    double noise = 0;               // variance of an entry
};

LogLight log_light(const GlossCells& grid, const GlossSplit& split) {
    std::vector<std::size_t> usable;
    for (std::size_t k = 0; k < grid.cells.size(); ++k) {
        const GlossCell& cell = grid.cells[k];
        if (cell.pixels > 0 && cell.pictures() == static_cast<int>(cell.light.size())) usable.push_back(k);
    }
    double brightness_noise = 0;
    for (const auto& line : grid.noise.m)
        for (const double entry : line) brightness_noise += entry;
    LogLight logs;
    const auto pictures = static_cast<Eigen::Index>(split.by_picture.size());
    logs.of.resize(static_cast<Eigen::Index>(usable.size()), pictures);
    logs.plane.resize(static_cast<Eigen::Index>(usable.size()), 3);
    for (std::size_t i = 0; i < usable.size(); ++i) {
        const GlossCell& cell = grid.cells[usable[i]];
        const auto row = static_cast<Eigen::Index>(i);
        const int column = static_cast<int>(usable[i]) % grid.columns,
                  line = static_cast<int>(usable[i]) / grid.columns;
        for (std::size_t p = 0; p < cell.light.size(); ++p)
            logs.of(row, static_cast<Eigen::Index>(p)) =
                std::log(std::max(brightness_of(cell.light[p]) - 3 * split.cells[usable[i]][p], 1e-6));
        logs.of.row(row).array() -= logs.of.row(row).mean();
        logs.plane.row(row) << 1, static_cast<double>(column) / grid.columns - 0.5,
            static_cast<double>(line) / grid.rows - 0.5;
        logs.tile.push_back(
            static_cast<std::size_t>(line * tiles / grid.rows * tiles + column * tiles / grid.columns));
        logs.noise += (brightness_noise + std::pow(3 * split.place_u, 2)) /
                      std::pow(brightness_of(cell.mean()), 2) / static_cast<double>(usable.size());
    }
    return logs;
}

}  // namespace

void measure_shimmer(const GlossCells& grid, GlossSplit& split) {
    LogLight logs = log_light(grid, split);
    if (logs.tile.size() < least_squares) return;
    logs.of -= logs.plane * logs.plane.colPivHouseholderQr().solve(logs.of);
    const auto pictures = static_cast<double>(logs.of.cols());
    const double as_one_picture = pictures / (pictures - 1);
    std::array<double, all_tiles> sum{}, count{};
    for (std::size_t i = 0; i < logs.tile.size(); ++i) {
        sum[logs.tile[i]] += logs.of.row(static_cast<Eigen::Index>(i)).squaredNorm() / pictures;
        ++count[logs.tile[i]];
    }
    double variance = 0, spread = 0, used = 0;
    for (std::size_t t = 0; t < sum.size(); ++t) variance += sum[t] / static_cast<double>(logs.tile.size());
    for (std::size_t t = 0; t < sum.size(); ++t)
        if (count[t] > 0) spread += std::pow(sum[t] / count[t] - variance, 2), ++used;
    // The noise is itself only known to a third.
    const double u = std::hypot(std::sqrt(spread / std::max(1.0, used * (used - 1))), logs.noise / 3);
    const double beyond = as_one_picture * (variance - logs.noise), wide = as_one_picture * 1.96 * u;
    split.shimmer = std::sqrt(std::max(0.0, beyond));
    // Noise that was taken for too much leaves less than nothing, and that is no knowledge.
    const double low = std::sqrt(std::max(0.0, beyond - wide)),
                 high = std::sqrt(std::max(0.0, beyond) + wide);
    split.shimmer_u95 = std::max(high - split.shimmer, split.shimmer - low);
}

}  // namespace tonemend
