#include "measure/ground_figure.h"

#include <Eigen/Dense>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace tonemend {
namespace {

constexpr std::size_t bins = 128;
constexpr double least_distance = 1.5;  // lightness units between the centres
constexpr double least_separation = 2.0;
constexpr double least_share = 0.03;

// Pixels projected on the principal axis: w·rgb, scaled so that white is 1.
struct Axis {
    std::array<float, 3> weights{};
    float project(const float* rgb) const {
        return weights[0] * rgb[0] + weights[1] * rgb[1] + weights[2] * rgb[2];
    }
};

// Calls visit(rgb) for up to about 100,000 used pixels, spread evenly.
template <typename Visit>
void for_each_sampled(const RegionPixels& pixels, Visit visit) {
    // Odd and not a divisor of the width, so that the samples don't line up in columns.
    std::size_t stride = std::max<std::size_t>(1, pixels.used / 100000) | 1;
    while (stride > 1 && static_cast<std::size_t>(pixels.picture.window.width) % stride == 0) stride += 2;
    for (std::size_t i = 0; i < pixels.state.size(); i += stride) {
        if (pixels.state[i] == PixelState::used) visit(pixels.picture.rgb.data() + 3 * i);
    }
}

double lightness(double linear) {
    return 116.0 * std::cbrt(std::max(linear, 0.0)) - 16.0;
}

Axis principal_axis(const RegionPixels& pixels) {
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    Eigen::Matrix3d squares = Eigen::Matrix3d::Zero();
    double n = 0;
    for_each_sampled(pixels, [&](const float* rgb) {
        const Eigen::Vector3d v(rgb[0], rgb[1], rgb[2]);
        sum += v, squares += v * v.transpose(), n += 1;
    });
    const Eigen::Vector3d mean = sum / n;
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> solver(squares / n - mean * mean.transpose());
    Eigen::Vector3d axis = solver.eigenvectors().col(2);
    if (axis.sum() < 0) axis = -axis;
    // Noise alone can give an axis that is no lightness; then plain luminance serves.
    if (axis.minCoeff() < 0) axis = Eigen::Vector3d(0.22, 0.72, 0.06);
    axis /= axis.sum();
    return {{static_cast<float>(axis[0]), static_cast<float>(axis[1]), static_cast<float>(axis[2])}};
}

struct Histogram {
    double low = 0, width = 1;  // lightness
    std::array<double, bins> share{};

    double centre(std::size_t bin) const { return low + (static_cast<double>(bin) + 0.5) * width; }
};

Histogram histogram_of(const RegionPixels& pixels, const Axis& axis) {
    // The axis is linear light: a table from fine linear steps to lightness spares a cube root a pixel.
    std::vector<double> fine(4096);
    const auto cell = [](float value) {
        return static_cast<std::size_t>(std::clamp(value, 0.0F, 1.0F) * 4095.0F);
    };
    for_each_sampled(pixels, [&](const float* rgb) { fine[cell(axis.project(rgb))] += 1.0; });
    double total = 0, seen = 0;
    for (const double count : fine) total += count;
    std::size_t first = 0, last = fine.size() - 1;
    for (std::size_t i = 0; i < fine.size(); ++i) {
        if (seen <= 0.001 * total) first = i;
        if (seen < 0.999 * total) last = i;
        seen += fine[i];
    }
    Histogram histogram;
    histogram.low = lightness(static_cast<double>(first) / 4095.0);
    histogram.width =
        std::max(lightness(static_cast<double>(last + 1) / 4095.0) - histogram.low, 1e-3) / bins;
    for (std::size_t i = 0; i < fine.size(); ++i) {
        const double at =
            (lightness((static_cast<double>(i) + 0.5) / 4095.0) - histogram.low) / histogram.width;
        histogram.share[static_cast<std::size_t>(std::clamp(at, 0.0, bins - 1.0))] += fine[i] / total;
    }
    return histogram;
}

struct Normal {
    double weight = 1, mean = 0, sd = 1;
    double density(double x) const {
        const double z = (x - mean) / sd;
        return weight * std::exp(-0.5 * z * z) / (sd * std::sqrt(2.0 * std::numbers::pi));
    }
};

Normal fit_one(const Histogram& histogram, double least_sd) {
    Normal one;
    double mean = 0, square = 0;
    for (std::size_t i = 0; i < bins; ++i) {
        mean += histogram.share[i] * histogram.centre(i);
        square += histogram.share[i] * histogram.centre(i) * histogram.centre(i);
    }
    one.mean = mean;
    one.sd = std::max(least_sd, std::sqrt(std::max(0.0, square - mean * mean)));
    return one;
}

struct Mixture {
    Normal dark, light;
    double log_likelihood(const Histogram& histogram) const {
        double sum = 0;
        for (std::size_t i = 0; i < bins; ++i) {
            const double x = histogram.centre(i);
            if (histogram.share[i] > 0)
                sum += histogram.share[i] * std::log(dark.density(x) + light.density(x) + 1e-300);
        }
        return sum;
    }
};

Mixture fit_two(const Histogram& histogram, const Normal& one, double least_sd, double start_offset) {
    Mixture two{{0.3, one.mean - start_offset * one.sd, 0.6 * one.sd},
                {0.7, one.mean + 0.4 * one.sd, 0.6 * one.sd}};
    for (int round = 0; round < 80; ++round) {
        std::array<double, 2> weight{}, sum{}, square{};
        for (std::size_t i = 0; i < bins; ++i) {
            const double x = histogram.centre(i);
            const double d = two.dark.density(x), l = two.light.density(x);
            const double p = d / (d + l + 1e-300);
            const std::array<double, 2> part{histogram.share[i] * p, histogram.share[i] * (1 - p)};
            for (std::size_t k = 0; k < 2; ++k)
                weight[k] += part[k], sum[k] += part[k] * x, square[k] += part[k] * x * x;
        }
        if (weight[0] < 1e-6 || weight[1] < 1e-6) break;
        const auto update = [&](std::size_t k) {
            const double mean = sum[k] / weight[k];
            return Normal{weight[k], mean,
                          std::max(least_sd, std::sqrt(std::max(0.0, square[k] / weight[k] - mean * mean)))};
        };
        const Mixture next{update(0), update(1)};
        const double moved =
            std::abs(next.dark.mean - two.dark.mean) + std::abs(next.light.mean - two.light.mean);
        two = next;
        if (moved < 1e-4) break;
    }
    if (two.dark.mean > two.light.mean) std::swap(two.dark, two.light);
    return two;
}

bool really_two(const Mixture& two, double gain_a_pixel, double effective_samples) {
    const double distance = two.light.mean - two.dark.mean;
    const double pooled = std::sqrt((two.dark.sd * two.dark.sd + two.light.sd * two.light.sd) / 2.0);
    const double smaller = std::min(two.dark.weight, two.light.weight);
    const double information =
        2.0 * gain_a_pixel * effective_samples - 3.0 * std::log(std::max(2.0, effective_samples));
    return distance >= least_distance && distance >= least_separation * pooled && smaller >= least_share &&
           information > 0;
}

// The lightness between the centres at which both populations are equally likely.
double boundary(const Mixture& two) {
    double low = two.dark.mean, high = two.light.mean;
    for (int i = 0; i < 50; ++i) {
        const double middle = 0.5 * (low + high);
        (two.dark.density(middle) > two.light.density(middle) ? low : high) = middle;
    }
    return low;
}

}  // namespace

std::optional<GroundAndFigure> split_ground_and_figure(const RegionPixels& pixels, double effective_samples) {
    const Axis axis = principal_axis(pixels);
    const Histogram histogram = histogram_of(pixels, axis);
    const double least_sd = std::max(0.1, histogram.width);
    const Normal one = fit_one(histogram, least_sd);
    Mixture two = fit_two(histogram, one, least_sd, 1.0);
    if (const Mixture other = fit_two(histogram, one, least_sd, 2.5);
        other.log_likelihood(histogram) > two.log_likelihood(histogram)) {
        two = other;
    }
    double one_likelihood = 0;
    for (std::size_t i = 0; i < bins; ++i) {
        if (histogram.share[i] > 0)
            one_likelihood += histogram.share[i] * std::log(one.density(histogram.centre(i)) + 1e-300);
    }
    if (!really_two(two, two.log_likelihood(histogram) - one_likelihood, effective_samples))
        return std::nullopt;
    const auto split = static_cast<float>(std::pow((boundary(two) + 16.0) / 116.0, 3));

    std::array<Vector3, 2> sum{};
    std::array<double, 2> count{};
    for_each_used(pixels, [&](int, int, const float* rgb) {
        const std::size_t k = axis.project(rgb) < split ? 1 : 0;
        count[k] += 1;
        for (std::size_t c = 0; c < 3; ++c) sum[k][c] += static_cast<double>(rgb[c]);
    });
    if (count[0] == 0 || count[1] == 0) return std::nullopt;
    GroundAndFigure result;
    for (std::size_t c = 0; c < 3; ++c) {
        result.ground[c] = sum[0][c] / count[0];
        result.figure[c] = sum[1][c] / count[1];
    }
    for (std::size_t c = 0; c < 3; ++c) result.axis[c] = static_cast<double>(axis.weights[c]);
    result.boundary = static_cast<double>(split);
    result.figure_share = count[1] / (count[0] + count[1]);
    return result;
}

}  // namespace tonemend
