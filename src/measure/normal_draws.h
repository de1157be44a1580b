#pragma once

#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>

namespace tonemend {

/// Standard normal draws that are the same on every machine (the standard library's distributions are not):
/// Box–Muller on the 64-bit Mersenne Twister.
class NormalDraws {
  public:
    explicit NormalDraws(std::uint64_t seed) : engine_(seed) {}

    double operator()() {
        if (spare_ready_) {
            spare_ready_ = false;
            return spare_;
        }
        const double radius = std::sqrt(-2.0 * std::log(1.0 - uniform()));
        const double angle = 2.0 * std::numbers::pi * uniform();
        spare_ = radius * std::sin(angle);
        spare_ready_ = true;
        return radius * std::cos(angle);
    }

    /// 0 ≤ value < 1.
    double uniform() { return static_cast<double>(engine_() >> 11) * 0x1.0p-53; }
    /// 0 … count−1.
    std::size_t index(std::size_t count) {
        return static_cast<std::size_t>(uniform() * static_cast<double>(count));
    }

  private:
    std::mt19937_64 engine_;
    double spare_ = 0;
    bool spare_ready_ = false;
};

}  // namespace tonemend
