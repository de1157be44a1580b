#pragma once

#include "live/bench.h"

namespace tonemend {

/// Opens the window and stays until the person leaves it. Throws InputError: no display, no OpenGL 3.3, an
/// option that cannot be.
void run_window(const BenchOptions& options);

}  // namespace tonemend
