#pragma once

#include <optional>

#include "live/bench.h"
#include "live/painter.h"

namespace tonemend {

/// The pages of jobs and of a coat, in place of the picture. Both hand what is clicked to the bench.
void draw_jobs_page(Painter& painter, const Box& box, Bench& bench);
void draw_coat_page(Painter& painter, const Box& box, Bench& bench);

}  // namespace tonemend
