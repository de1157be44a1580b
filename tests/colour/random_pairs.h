#pragma once

#include <cstddef>
#include <random>
#include <utility>
#include <vector>

#include "colour/lab.h"

/// Pairs of colours, every other one close together, all over L 0..100 and a, b −128..128. The same on every
/// machine: the engine is specified bit for bit, and so is the scaling here.
inline std::vector<std::pair<tonemend::Lab, tonemend::Lab>> make_random_pairs(std::size_t count) {
    std::mt19937_64 engine(20051);
    const auto uniform = [&](double low, double high) {
        return low + (high - low) * static_cast<double>(engine() >> 11) * 0x1p-53;
    };
    const auto colour = [&] {
        const double L = uniform(0, 100);
        const double a = uniform(-128, 128);
        return tonemend::Lab{L, a, uniform(-128, 128)};
    };
    std::vector<std::pair<tonemend::Lab, tonemend::Lab>> pairs;
    for (std::size_t i = 0; i < count; ++i) {
        const tonemend::Lab first = colour();
        tonemend::Lab second = colour();
        if (i % 2 == 1) {
            const double L = first.L + uniform(-3, 3);
            const double a = first.a + uniform(-3, 3);
            second = {L, a, first.b + uniform(-3, 3)};
        }
        pairs.emplace_back(first, second);
    }
    return pairs;
}
