#pragma once

#include <string>

#include "live/bench_state.h"
#include "live/painter.h"

namespace tonemend {

/// In the pair's place while a light is held: ΔE2000 under either light, the verdict, how the pair moves; or
/// what to do while the lamp is still the same. Draws nothing when none is held.
void draw_second_light(Painter& painter, const Box& box, const BenchState& state);

/// The same as words, for the status file and for tests: "held", or the verdict; empty when none is held.
std::string second_light_word(const BenchState& state);

}  // namespace tonemend
