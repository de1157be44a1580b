#include "practice/random.h"

#include <cmath>

#include "tests/support/check_tight.h"

using namespace tonemend;

// Standard normal quantiles to nine decimals: any statistical table; ISO 3534-1's distribution. From memory.
TEST_CASE("The normal quantile has its table values") {
    CHECK(std::abs(normal_quantile(0.5)) < 1e-12);
    CHECK(normal_quantile(0.975) == Approx(1.959963985).margin(1e-9));
    CHECK(normal_quantile(0.995) == Approx(2.575829304).margin(1e-9));
    CHECK(normal_quantile(0.0001) == Approx(-3.719016485).margin(1e-9));
    for (double x = -5; x <= 5; x += 0.37)
        CHECK(normal_quantile(0.5 * std::erfc(-x / std::sqrt(2.0))) == Approx(x).margin(1e-9));
}

TEST_CASE("Noise has mean 0, variance 1, kurtosis 3 and no memory") {
    constexpr std::size_t count = 4'000'000;
    std::vector<float> values(count);
    Random random(7, "test");
    NormalTable::get().fill(random, values.data(), count);
    double mean = 0, square = 0, fourth = 0, next = 0;
    for (std::size_t i = 0; i < count; ++i) {
        const double v = static_cast<double>(values[i]);
        mean += v / count;
        square += v * v / count;
        fourth += v * v * v * v / count;
        if (i > 0) next += v * static_cast<double>(values[i - 1]) / count;
    }
    // Four standard errors of each estimate over 4 million independent normals.
    CHECK(std::abs(mean) < 4 * std::sqrt(1.0 / count));
    CHECK(std::abs(square - 1) < 4 * std::sqrt(2.0 / count));
    CHECK(std::abs(fourth - 3) < 4 * std::sqrt(96.0 / count));
    CHECK(std::abs(next) < 4 * std::sqrt(1.0 / count));
}

TEST_CASE("Streams of one seed differ by name and by index, and each comes again") {
    CHECK(Random(1, "a").bits() == Random(1, "a").bits());
    CHECK(Random(1, "a").bits() != Random(1, "b").bits());
    CHECK(Random(1, "a", 0).bits() != Random(1, "a", 1).bits());
    CHECK(Random(1, "a").bits() != Random(2, "a").bits());
}

TEST_CASE("A stream's first numbers never change: pictures already made can be made again") {
    Random random(1, "wood");
    CHECK(random.bits() == 0xfd183185963a748dU);
    CHECK(random.bits() == 0x785d3c19ed5754f3U);
}
