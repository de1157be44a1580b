#pragma once

#include <array>
#include <optional>

#include "measure/vials.h"

namespace tonemend {

/// One vial of the window: the whole wood's bubble, or, where both regions show them, the ground's and the
/// figure's. All bubbles of the three vials share one scale.
struct BenchVial {
    Vial whole;
    std::optional<Vial> ground, figure;  ///< both or neither
};

/// The vials of measure/vials.h, drawn for the wood and for its two populations, brought to the coarsest
/// scale that any of them needs.
std::array<BenchVial, 3> draw_bench_vials(const Comparison& comparison);

}  // namespace tonemend
