#pragma once

#include <optional>

#include "live/bench.h"
#include "live/painter.h"

namespace tonemend {

/// The pages of jobs, of a coat, of the plan and of a sample board, in place of the picture. All hand what is
/// clicked to the bench.
void draw_jobs_page(Painter& painter, const Box& box, Bench& bench);
void draw_coat_page(Painter& painter, const Box& box, Bench& bench);
void draw_plan_page(Painter& painter, const Box& box, Bench& bench);
void draw_board_page(Painter& painter, const Box& box, Bench& bench);

}  // namespace tonemend
