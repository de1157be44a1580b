#include "calibrate/tone/coding.h"

#include <cmath>

#include "colour/srgb_curve.h"
#include "tests/catch.h"

using namespace tonemend;

TEST_CASE("Rounding a flat grey leaves a step over the root of twelve, as light at that grey") {
    const Coding eight_bits{1.0 / 255, 0};
    const double grey = decode_srgb(0.5);
    const double light_a_step = decode_srgb(0.5 + 1.0 / 255) - decode_srgb(0.5);
    CHECK(eight_bits.mean_u(grey, 0, 1e4) == Approx(light_a_step / std::sqrt(12.0)).epsilon(1e-9));
}

TEST_CASE("Noise of one step takes the rounding out of a mean, and 16 bits hardly have it") {
    const Coding eight_bits{1.0 / 255, 0}, sixteen_bits{1.0 / 65535, 0};
    const double grey = decode_srgb(0.5), flat = eight_bits.mean_u(grey, 0, 1e4);
    const double light_a_step = decode_srgb(0.5 + 1.0 / 255) - decode_srgb(0.5);
    CHECK(eight_bits.mean_u(grey, light_a_step, 1e4) < 1e-8 * flat);
    CHECK(eight_bits.mean_u(grey, 0.25 * light_a_step, 1e4) ==
          Approx(std::exp(-2 * 9.8696 / 16) * flat).epsilon(1e-4));
    CHECK(sixteen_bits.mean_u(grey, 0, 1e4) == Approx(flat / 257).epsilon(1e-6));
}

TEST_CASE("Float pictures cost a mean nothing") {
    CHECK(Coding{}.mean_u(0.3, 0.0, 1e4) == 0);
}
