#include "measure/settling_readings.h"

#include <algorithm>
#include <cmath>

namespace tonemend {
namespace {

constexpr double supposed_scatter = 0.04, supposed_weight = 4, least_scatter = 0.01;
// What no curve of the family explains, standard deviation: so much, and so much of the way from a point's
// colour to the last one's. So what lies long back says less of what is to come.
constexpr double unexplained = 0.015, unexplained_share = 0.015;

double median_in(std::vector<double>& values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

}  // namespace

std::array<double, 3> find_scatter(std::span<const TimedLab> readings) {
    std::array<double, 3> result{};
    for (std::size_t axis = 0; axis < 3; ++axis) {
        std::vector<double> off;
        for (std::size_t i = 1; i + 1 < readings.size(); ++i) {
            const double whole = readings[i + 1].seconds - readings[i - 1].seconds;
            const double part = whole > 0 ? (readings[i].seconds - readings[i - 1].seconds) / whole : 0.5;
            const double line =
                (1 - part) * axes_of(readings[i - 1].lab)[axis] + part * axes_of(readings[i + 1].lab)[axis];
            // Three independent errors make it; 0.6745 is the normal's quartile.
            const double errors = std::sqrt(1 + (1 - part) * (1 - part) + part * part);
            off.push_back(std::abs(axes_of(readings[i].lab)[axis] - line) / errors / 0.6745);
        }
        const auto n = static_cast<double>(off.size());
        const double seen = off.empty() ? 0 : median_in(off);
        result[axis] =
            std::max(least_scatter,
                     std::sqrt((n * seen * seen + supposed_weight * supposed_scatter * supposed_scatter) /
                               (n + supposed_weight)));
    }
    return result;
}

std::vector<double> weigh_by_neighbours(std::span<const TimedLab> readings,
                                        const std::array<double, 3>& scatter) {
    std::vector<double> weights(readings.size(), 1);
    for (std::size_t i = 2; i + 2 < readings.size(); ++i) {
        for (std::size_t axis = 0; axis < 3; ++axis) {
            std::vector<double> five;
            for (std::size_t k = i - 2; k <= i + 2; ++k) five.push_back(axes_of(readings[k].lab)[axis]);
            if (std::abs(axes_of(readings[i].lab)[axis] - median_in(five)) > 8 * scatter[axis])
                weights[i] = 0;
        }
    }
    return weights;
}

std::vector<SettlingPoint> gather_points(std::span<const TimedLab> readings, std::span<const double> weights,
                                         const std::array<double, 3>& scatter) {
    std::vector<SettlingPoint> points;
    constexpr double together = 0.1;
    for (std::size_t i = 0; i < readings.size();) {
        const double begin = readings[i].seconds - readings[0].seconds;
        SettlingPoint point;
        double sum = 0;
        for (; i < readings.size() && readings[i].seconds - readings[0].seconds <= begin * (1 + together);
             ++i) {
            sum += weights[i];
            point.seconds += weights[i] * (readings[i].seconds - readings[0].seconds);
            for (std::size_t axis = 0; axis < 3; ++axis)
                point.lab[axis] += weights[i] * axes_of(readings[i].lab)[axis];
        }
        if (sum < 1e-3) continue;
        point.seconds /= sum;
        for (std::size_t axis = 0; axis < 3; ++axis) {
            point.lab[axis] /= sum;
            point.variance[axis] = scatter[axis] * scatter[axis] / sum;
        }
        points.push_back(point);
    }
    for (SettlingPoint& point : points) {
        double way = 0;
        for (std::size_t axis = 0; axis < 3; ++axis)
            way = std::hypot(way, point.lab[axis] - points.back().lab[axis]);
        const double model = unexplained + unexplained_share * way;
        for (double& variance : point.variance) variance += model * model;
    }
    return points;
}

}  // namespace tonemend
