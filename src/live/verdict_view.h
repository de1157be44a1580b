#pragma once

#include "live/bench.h"
#include "live/painter.h"

namespace tonemend {

/// The verdict's shape, by which it is told apart without its word: a full disc for a match, a ring for
/// close, two parted discs for off, a ring with a bar for undecided.
void draw_verdict_shape(Painter& painter, Verdict verdict, float x, float y, float radius, Shade ink,
                        Shade ground);

/// The cross that stands in its place where a warning makes the reading unfit.
void draw_unfit_shape(Painter& painter, float x, float y, float radius, Shade ink);

/// The plate: ΔE2000, its interval and the word; before there is a comparison, what to do first. A match
/// turns the plate's greys about, which shows across the shop.
void draw_verdict(Painter& painter, const Box& box, const Bench& bench);

/// The next move in a sentence, and the moves with their amounts; for an unfit reading why it is so.
void draw_move(Painter& painter, const Box& box, const Bench& bench);

}  // namespace tonemend
