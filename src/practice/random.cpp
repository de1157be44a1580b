#include "practice/random.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tonemend {

namespace {

// SplitMix64 (Steele, Lea, Flood 2014): spreads near-equal seeds far apart.
std::uint64_t mix(std::uint64_t value) {
    value += 0x9e3779b97f4a7c15U;
    value = (value ^ (value >> 30U)) * 0xbf58476d1ce4e5b9U;
    value = (value ^ (value >> 27U)) * 0x94d049bb133111ebU;
    return value ^ (value >> 31U);
}

std::uint64_t hash(std::string_view text) {
    std::uint64_t value = 0;
    for (const char letter : text) value = mix(value ^ static_cast<unsigned char>(letter));
    return value;
}

double acklam(double p) {
    constexpr std::array a{-3.969683028665376e+01, 2.209460984245205e+02,  -2.759285104469687e+02,
                           1.383577518672690e+02,  -3.066479806614716e+01, 2.506628277459239e+00};
    constexpr std::array b{-5.447609879822406e+01, 1.615858368580409e+02, -1.556989798598866e+02,
                           6.680131188771972e+01, -1.328068155288572e+01};
    constexpr std::array c{-7.784894002430293e-03, -3.223964580411365e-01, -2.400758277161838e+00,
                           -2.549732539343734e+00, 4.374664141464968e+00,  2.938163982698783e+00};
    constexpr std::array d{7.784695709041462e-03, 3.224671290700398e-01, 2.445134137142996e+00,
                           3.754408661907416e+00};
    if (p > 0.5) return -acklam(1 - p);
    if (p < 0.02425) {
        const double q = std::sqrt(-2 * std::log(p));
        return (((((c[0] * q + c[1]) * q + c[2]) * q + c[3]) * q + c[4]) * q + c[5]) /
               ((((d[0] * q + d[1]) * q + d[2]) * q + d[3]) * q + 1);
    }
    const double q = p - 0.5;
    const double r = q * q;
    return (((((a[0] * r + a[1]) * r + a[2]) * r + a[3]) * r + a[4]) * r + a[5]) * q /
           (((((b[0] * r + b[1]) * r + b[2]) * r + b[3]) * r + b[4]) * r + 1);
}

}  // namespace

Random::Random(std::uint64_t seed, std::string_view stream, std::uint64_t index)
    : engine_(mix(mix(seed) ^ hash(stream)) ^ mix(index)) {}

double Random::normal() {
    return normal_quantile((static_cast<double>(engine_() >> 12U) + 0.5) * 0x1.0p-52);
}

double normal_quantile(double probability) {
    const double x = acklam(probability);
    const double error = 0.5 * std::erfc(-x / std::numbers::sqrt2) - probability;
    const double u = error * std::sqrt(2 * std::numbers::pi) * std::exp(x * x / 2);
    return x - u / (1 + x * u / 2);
}

const NormalTable& NormalTable::get() {
    static const NormalTable table;
    return table;
}

NormalTable::NormalTable() : quantiles_{} {
    const std::size_t half = quantiles_.size() / 2;
    std::array<double, 32768> upper{};
    double sum_of_squares = 0;
    for (std::size_t i = 0; i < half; ++i) {
        upper[i] =
            normal_quantile(0.5 + (static_cast<double>(i) + 0.5) / static_cast<double>(quantiles_.size()));
        sum_of_squares += upper[i] * upper[i];
    }
    const double scale = std::sqrt(static_cast<double>(half) / sum_of_squares);
    for (std::size_t i = 0; i < half; ++i) {
        quantiles_[half + i] = static_cast<float>(scale * upper[i]);
        quantiles_[half - 1 - i] = -quantiles_[half + i];
    }
}

void NormalTable::fill(Random& random, float* out, std::size_t count) const {
    for (std::size_t i = 0; i < count; i += 4) {
        std::uint64_t bits = random.bits();
        const std::size_t end = std::min(count, i + 4);
        for (std::size_t k = i; k < end; ++k, bits >>= 16U) out[k] = quantiles_[bits & 0xffffU];
    }
}

}  // namespace tonemend
