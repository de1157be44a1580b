#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <random>
#include <string_view>

namespace tonemend {

/// A stream of random numbers that is the same on every machine: the standard fixes std::mt19937_64's output,
/// but not what its distributions make of it, so those are our own.
class Random {
  public:
    /// Streams of the same seed with different names, or different indices, are independent.
    Random(std::uint64_t seed, std::string_view stream, std::uint64_t index = 0);

    std::uint64_t bits() { return engine_(); }
    /// Evenly spread in [0, 1).
    double uniform() { return static_cast<double>(engine_() >> 11U) * 0x1.0p-53; }
    /// Evenly spread in [low, high).
    double uniform(double low, double high) { return low + (high - low) * uniform(); }
    /// 0 … count−1, each as likely; count at least 1.
    int below(int count) { return static_cast<int>(uniform() * count); }
    /// Standard normal: the inverse of its distribution at a uniform number.
    double normal();

  private:
    std::mt19937_64 engine_;
};

/// The standard normal's quantile at `probability` in (0, 1), to 1e-9. Source: P. J. Acklam's rational
/// approximation (from memory), refined by one Halley step with std::erfc.
double normal_quantile(double probability);

/// Standard normals by the million for textures and sensor noise: a table of 65536 equally likely quantiles,
/// scaled to a variance of exactly 1; four numbers from each 64 random bits. The largest is 4.2.
class NormalTable {
  public:
    static const NormalTable& get();
    /// Fills `count` floats.
    void fill(Random& random, float* out, std::size_t count) const;

  private:
    NormalTable();
    std::array<float, 65536> quantiles_;
};

}  // namespace tonemend
