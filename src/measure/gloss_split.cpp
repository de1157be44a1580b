#include "measure/gloss_split.h"

#include <algorithm>
#include <cmath>

#include "measure/normal_draws.h"
#include "measure/shimmer.h"

namespace tonemend {
namespace {

constexpr double least_common = 0.01;  // relative: flat fields are seldom as good as they say
constexpr double open_gloss = 0.005;   // of white: a map does not show what is known no better
constexpr int draws = 64;

double times(const Vector3& a, const Vector3& b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

// The wood's own light as far as the pictures show it: the darkest.
Vector3 darkest(const GlossCell& cell) {
    Vector3 best = cell.mean();
    for (std::size_t p = 0; p < cell.light.size(); ++p)
        if (cell.there[p] != 0 && brightness_of(cell.light[p]) < brightness_of(best)) best = cell.light[p];
    return best;
}

// rms over the squares of what the logarithm of brightness does from picture to picture, beyond what it does
// all over the region.
double brightness_spread(const GlossCells& grid) {
    std::vector<double> mean, square, count;
    for (const GlossCell& cell : grid.cells) {
        if (cell.pixels == 0 || cell.pictures() < 2) continue;
        mean.resize(cell.light.size()), square.resize(cell.light.size()), count.resize(cell.light.size());
        const double middle = std::log(std::max(brightness_of(cell.mean()), 1e-6));
        for (std::size_t p = 0; p < cell.light.size(); ++p) {
            if (cell.there[p] == 0) continue;
            const double off = std::log(std::max(brightness_of(cell.light[p]), 1e-6)) - middle;
            mean[p] += off, square[p] += off * off, ++count[p];
        }
    }
    double variance = 0;
    for (std::size_t p = 0; p < mean.size(); ++p)
        if (count[p] > 0)
            variance +=
                (square[p] / count[p] - std::pow(mean[p] / count[p], 2)) / static_cast<double>(mean.size());
    return std::sqrt(std::max(0.0, variance));
}

struct Weights {
    Vector3 w{};
    double wood = 0;  // what they make of the wood's own light; 0 on coloured wood
};

Weights neutral_weights(const Vector3& wood, const Matrix3& noise, double common, double channel) {
    Matrix3 covariance = noise;
    for (std::size_t r = 0; r < 3; ++r) {
        for (std::size_t c = 0; c < 3; ++c) covariance.m[r][c] += common * common * wood[r] * wood[c];
        covariance.m[r][r] += std::pow(channel * wood[r], 2) + 1e-12;
    }
    const Vector3 solved = inverse(covariance) * Vector3{1, 1, 1};
    Weights result;
    for (std::size_t c = 0; c < 3; ++c) result.w[c] = solved[c] / brightness_of(solved);
    result.wood = times(result.w, wood);
    return result;
}

// The neutral part of each picture of a square against their mean; 0 where a picture isn't there.
struct NeutralPart {
    double pixels = 0;
    std::vector<double> of;
    double noise = 0;   // variance, this square's own
    double common = 0;  // variance, shared by the region
};

NeutralPart neutral_part(const GlossCells& grid, const GlossCell& cell, const UnevenLight& light,
                         double spread) {
    NeutralPart part;
    part.of.assign(cell.light.size(), 0);
    if (cell.pixels == 0) return part;
    part.pixels = cell.pixels;
    const Vector3 wood = darkest(cell), mean = cell.mean();
    Matrix3 noise = grid.noise;
    const double share = grid.side * grid.side / cell.pixels;  // of a whole square's noise
    for (auto& line : noise.m)
        for (double& entry : line) entry *= share;
    const Weights weights =
        neutral_weights(wood, noise, std::hypot(least_common, light.common, spread), light.channel);
    for (std::size_t p = 0; p < cell.light.size(); ++p) {
        if (cell.there[p] == 0) continue;
        for (std::size_t c = 0; c < 3; ++c) part.of[p] += weights.w[c] * (cell.light[p][c] - mean[c]);
    }
    part.noise = times(weights.w, noise * weights.w) + std::pow(spread * weights.wood, 2);
    part.common = std::pow(light.common * weights.wood, 2);
    for (std::size_t c = 0; c < 3; ++c) part.common += std::pow(light.channel * weights.w[c] * wood[c], 2);
    return part;
}

struct RegionPart {
    std::vector<double> mean;  // a picture each
    double spread2 = 0;        // true variance of a place's neutral part about that
    double noise = 0, common = 0;
};

RegionPart summarise(const std::vector<NeutralPart>& parts, std::size_t pictures) {
    RegionPart region;
    region.mean.assign(pictures, 0);
    double pixels = 0, seen = 0;
    for (const NeutralPart& part : parts) {
        pixels += part.pixels;
        region.noise += part.pixels * part.noise, region.common += part.pixels * part.common;
        for (std::size_t p = 0; p < pictures; ++p) region.mean[p] += part.pixels * part.of[p];
    }
    if (pixels == 0) return region;
    region.noise /= pixels, region.common /= pixels;
    for (double& mean : region.mean) mean /= pixels;
    for (const NeutralPart& part : parts)
        for (std::size_t p = 0; p < pictures; ++p)
            seen += part.pixels * std::pow(part.of[p] - region.mean[p], 2) / static_cast<double>(pictures);
    region.spread2 = std::max(0.0, seen / pixels - region.noise);
    return region;
}

// Expected gloss of a square in each picture, and of the most.
struct Expected {
    std::vector<double> gloss;
    double most = 0;
};

Expected expected_gloss(const NeutralPart& part, const GlossCell& cell, const RegionPart& region,
                        const std::vector<double>& normals) {
    const std::size_t pictures = part.of.size();
    const auto there = static_cast<double>(cell.pictures());
    const double keep = region.spread2 > 0 ? region.spread2 / (region.spread2 + part.noise) : 0;
    // Centred draws of this variance.
    const double open = there > 1 ? std::sqrt(keep * part.noise * there / (there - 1)) : 0;
    double mean = 0;
    for (std::size_t p = 0; p < pictures; ++p)
        if (cell.there[p] != 0) mean += region.mean[p] / there;
    Expected result;
    result.gloss.assign(pictures, 0);
    for (int i = 0; i < draws; ++i) {
        std::vector<double> drawn(pictures);
        double low = 1e300, high = -1e300;
        for (std::size_t p = 0; p < pictures; ++p) {
            if (cell.there[p] == 0) continue;
            const double expected = region.mean[p] - mean;
            drawn[p] = expected + keep * (part.of[p] - expected) +
                       open * normals[static_cast<std::size_t>(i) * pictures + p];
            low = std::min(low, drawn[p]), high = std::max(high, drawn[p]);
        }
        for (std::size_t p = 0; p < pictures; ++p)
            if (cell.there[p] != 0) result.gloss[p] += (drawn[p] - low) / draws;
        result.most += (high - low) / draws;
    }
    return result;
}

}  // namespace

std::optional<double> gloss_by_colour(const GlossCells& grid, const GlossCell& cell) {
    const UnevenLight any{0.1, 0.002};
    const NeutralPart part = neutral_part(grid, cell, any, 0);
    if (part.noise + part.common > open_gloss * open_gloss) return std::nullopt;
    double low = 1e300, high = -1e300;
    for (std::size_t p = 0; p < part.of.size(); ++p)
        if (cell.there[p] != 0) low = std::min(low, part.of[p]), high = std::max(high, part.of[p]);
    return high - low;
}

GlossSplit split_gloss(const GlossCells& grid, const UnevenLight& uneven) {
    const std::size_t pictures = grid.cells.front().light.size();
    const auto n = static_cast<double>(pictures);
    // Compared with the mean over the pictures each loses a share of its own error.
    const double centred = std::sqrt(1 - 1 / n);
    const UnevenLight light{uneven.common * centred, uneven.channel * centred};
    const double spread = brightness_spread(grid);
    std::vector<NeutralPart> parts;
    for (const GlossCell& cell : grid.cells) parts.push_back(neutral_part(grid, cell, light, spread));
    const RegionPart region = summarise(parts, pictures);

    NormalDraws draw(19610501);
    std::vector<double> normals(draws * pictures);
    for (double& value : normals) value = draw();

    GlossSplit split;
    split.by_picture.assign(pictures, 0);
    double pixels = 0, noise = 0;
    std::vector<double> weight(pictures, 0);
    for (std::size_t k = 0; k < parts.size(); ++k) {
        const GlossCell& cell = grid.cells[k];
        split.cells.emplace_back();
        if (cell.pixels == 0) continue;
        const Expected expected = expected_gloss(parts[k], cell, region, normals);
        split.cells.back() = expected.gloss;
        pixels += cell.pixels, noise += cell.pixels * cell.pixels * parts[k].noise;
        split.gloss += cell.pixels * expected.most;
        for (std::size_t p = 0; p < pictures; ++p) {
            if (cell.there[p] == 0) continue;
            split.by_picture[p] += cell.pixels * expected.gloss[p], weight[p] += cell.pixels;
            split.veil += cell.pixels * expected.gloss[p] / cell.pictures();
        }
    }
    if (pixels == 0) return split;
    split.gloss /= pixels, split.veil /= pixels;
    for (std::size_t p = 0; p < pictures; ++p) split.by_picture[p] /= std::max(weight[p], 1.0);
    split.veil_u = std::sqrt(region.common + noise / (pixels * pixels));
    split.place_u = std::sqrt(region.noise * region.spread2 / std::max(region.noise + region.spread2, 1e-12));
    split.gloss_u = split.veil_u * std::sqrt(2 * n / (n - 1));
    measure_shimmer(grid, split);
    return split;
}

}  // namespace tonemend
