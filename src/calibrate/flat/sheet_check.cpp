#include "calibrate/flat/sheet_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "picture/input_error.h"

namespace tonemend {
namespace {

constexpr double most_miss = 0.01;
constexpr double most_rough = 0.015;  // rms of the cells: wood and woven cloth have more, paper has less
constexpr double most_left_out = 0.20;
constexpr double largest_spot = 0.015;
constexpr double spot_worth_saying = 0.01;  // relative brightness

struct Spot {
    double cells = 0, brightness = 0;
    Point middle;
};

// Cells that were left out on the same side of the surface and touch each other.
class SpotFinder {
  public:
    SpotFinder(const FlatSamples& samples, const std::vector<LogSample>& logs, const SurfaceFit& fit)
        : samples_(samples), off_(samples.samples.size(), 0.0) {
        for (std::size_t i = 0; i < logs.size(); ++i) {
            const double brightness = (fit.left[i][0] + fit.left[i][1] + fit.left[i][2]) / 3;
            if (fit.weights[i] < 0.2 && std::abs(brightness) > spot_worth_saying)
                off_[static_cast<std::size_t>(logs[i].cell)] = brightness;
        }
    }

    Spot largest() {
        Spot largest;
        for (int row = 0; row < samples_.rows; ++row)
            for (int column = 0; column < samples_.columns; ++column) {
                Spot spot = take(column, row);
                if (spot.cells > largest.cells) largest = spot;
            }
        largest.brightness /= std::max(1.0, largest.cells);
        largest.middle.x /= std::max(1.0, largest.cells), largest.middle.y /= std::max(1.0, largest.cells);
        return largest;
    }

  private:
    double& off(int column, int row) {
        return off_[static_cast<std::size_t>(row * samples_.columns + column)];
    }

    // The spot that the cell belongs to; its cells are gone afterwards.
    Spot take(int column, int row) {
        Spot spot;
        const bool bright = off(column, row) > 0;
        std::vector<std::pair<int, int>> open{{column, row}};
        while (!open.empty()) {
            const auto [x, y] = open.back();
            open.pop_back();
            if (x < 0 || y < 0 || x >= samples_.columns || y >= samples_.rows) continue;
            double& here = off(x, y);
            if (here == 0 || (here > 0) != bright) continue;
            const Point& at = samples_.samples[static_cast<std::size_t>(y * samples_.columns + x)].at;
            ++spot.cells, spot.brightness += here, spot.middle.x += at.x, spot.middle.y += at.y;
            here = 0;
            for (const auto& [dx, dy] :
                 {std::pair{1, 0}, std::pair{-1, 0}, std::pair{0, 1}, std::pair{0, -1}})
                open.emplace_back(x + dx, y + dy);
        }
        return spot;
    }

    const FlatSamples& samples_;
    std::vector<double> off_;  // by cells: 0 when it fits
};

// Rms of what is left of the cells that were used, brightness.
double roughness(const SurfaceFit& fit) {
    double sum = 0, weights = 0;
    for (std::size_t i = 0; i < fit.left.size(); ++i) {
        sum += fit.weights[i] * std::pow((fit.left[i][0] + fit.left[i][1] + fit.left[i][2]) / 3, 2);
        weights += fit.weights[i];
    }
    return weights > 0 ? std::sqrt(sum / weights) : 1;
}

}  // namespace

void require_even_sheet(const FlatSamples& samples, const std::vector<LogSample>& logs, const SurfaceFit& fit,
                        double tile_miss) {
    const auto cells = static_cast<double>(samples.samples.size());
    const Spot spot = SpotFinder(samples, logs, fit).largest();
    if (spot.cells > largest_spot * cells) {
        throw InputError(fmt::format(
            "{}: a spot around {:.0f},{:.0f} is {:.0f} % {} than the sheet around it; {}, and take the "
            "sheet's "
            "picture again",
            samples.name, spot.middle.x, spot.middle.y, 100 * std::abs(std::expm1(spot.brightness)),
            spot.brightness > 0 ? "lighter" : "darker",
            spot.brightness > 0 ? "use a dry, matt sheet on which no lamp mirrors"
                                : "keep shadows, stains and everything else off it"));
    }
    double left_out = cells - static_cast<double>(logs.size());
    for (const double weight : fit.weights) left_out += weight < 0.05 ? 1 : 0;
    const double rough = roughness(fit);
    if (tile_miss > most_miss || rough > most_rough || left_out > most_left_out * cells) {
        throw InputError(fmt::format(
            "{}: is no picture of one even sheet (it departs from smooth light by {:.1f} %, and {:.0f} % of "
            "it "
            "would have to be left out), and no card frame is found in it; fill the whole picture with one "
            "matt, even, grey sheet",
            samples.name, 100 * std::max(tile_miss, rough), 100 * left_out / cells));
    }
}

}  // namespace tonemend
