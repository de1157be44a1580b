#include "practice/grain.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "practice/grain_field.h"
#include "practice/random.h"

namespace tonemend {

namespace {

// The edge between ground and figure, and of a pore, in standard deviations of the field.
constexpr double figure_edge = 0.5;
constexpr double pore_edge = 0.4;

// 0 below the edge's middle − half, 1 above + half; `share` of a standard normal lies above the middle.
struct Threshold {
    double middle, edge;
    Threshold(double share, double width)
        : middle(share > 0 ? normal_quantile(1 - share) : 1e9), edge(width) {}
    double operator()(double value) const { return std::clamp(0.5 + (value - middle) / edge, 0.0, 1.0); }
};

double join(double figure, double pore) {
    return figure + (1 - figure) * pore;
}

struct Slice {
    double value, probability;
};

// The distribution of threshold(standard normal): its two ends and thin slices of the edge between.
std::vector<Slice> slices(const Threshold& threshold) {
    const auto below = [](double x) { return 0.5 * std::erfc(-x / std::numbers::sqrt2); };
    constexpr int count = 80;
    const double low = threshold.middle - threshold.edge / 2;
    std::vector<Slice> all{{0, below(low)}};
    for (int i = 0; i < count; ++i) {
        const double from = low + threshold.edge * i / count;
        const double to = low + threshold.edge * (i + 1) / count;
        if (const double probability = below(to) - below(from); probability > 0)
            all.push_back({threshold((from + to) / 2), probability});
    }
    if (const double rest = 1 - below(low + threshold.edge); rest > 0) all.push_back({1, rest});
    return all;
}

double bounded(double darkness) {
    return std::clamp(darkness, -0.5, 1.5);
}

}  // namespace

std::vector<float> grow_grain(const GrainStyle& style, int width, int height, std::uint64_t seed) {
    std::vector<float> darkness =
        gaussian_field(width, height, style.along / 3, style.across / 2, seed, "mottle");
    for (float& value : darkness) value *= static_cast<float>(style.mottle);
    std::vector<float> base(darkness.size(), 0.0F);
    if (style.figure_share > 0) {
        const Threshold threshold(style.figure_share, figure_edge);
        base = gaussian_field(width, height, style.along, style.across, seed, "figure");
        if (style.streaks > 0) {
            const auto own = static_cast<float>(std::sqrt(1 - style.streaks * style.streaks));
            const auto share = static_cast<float>(style.streaks);
            const std::vector<float> streak =
                gaussian_field(width, height, 25 * style.along, 5 * style.across, seed, "streaks");
            for (std::size_t i = 0; i < base.size(); ++i) base[i] = own * base[i] + share * streak[i];
        }
        for (float& value : base) value = static_cast<float>(threshold(static_cast<double>(value)));
    }
    if (style.pore_share > 0) {
        const Threshold threshold(style.pore_share, pore_edge);
        const std::vector<float> pores =
            gaussian_field(width, height, style.along / 2, style.across / 2, seed, "pores");
        for (std::size_t i = 0; i < base.size(); ++i)
            base[i] = static_cast<float>(
                join(static_cast<double>(base[i]), threshold(static_cast<double>(pores[i]))));
    }
    for (std::size_t i = 0; i < darkness.size(); ++i)
        darkness[i] = std::clamp(base[i] + darkness[i], -0.5F, 1.5F);
    return darkness;
}

LongRunWeights long_run_weights(const GrainStyle& style) {
    // The field's own parts are independent, so the distribution is a triple sum.
    std::vector<Slice> mottle;
    constexpr int count = 64;
    for (int i = 0; i < count; ++i)
        mottle.push_back({style.mottle * normal_quantile((i + 0.5) / count), 1.0 / count});
    NodeWeights ground{};
    NodeWeights figure{};
    double figure_share = 0;
    for (const Slice& f : slices(Threshold(style.figure_share, figure_edge)))
        for (const Slice& p : slices(Threshold(style.pore_share, pore_edge))) {
            const double base = join(f.value, p.value);
            const double probability = f.probability * p.probability;
            if (base >= 0.5) figure_share += probability;
            NodeWeights& weights = base >= 0.5 ? figure : ground;
            for (const Slice& m : mottle)
                add_darkness(weights, bounded(base + m.value), probability * m.probability);
        }
    LongRunWeights result;
    result.figure_share = figure_share;
    for (std::size_t i = 0; i < darkness_nodes; ++i) {
        result.all[i] = ground[i] + figure[i];
        result.ground[i] = ground[i] / (1 - figure_share);
        result.figure[i] = figure_share > 0 ? figure[i] / figure_share : 0;
    }
    return result;
}

}  // namespace tonemend
