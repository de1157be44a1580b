#pragma once

#include <string_view>
#include <vector>

#include "live/bench_state.h"
#include "live/painter.h"
#include "live/region_editor.h"
#include "live/view_transform.h"

namespace tonemend {

// What is drawn over the picture with lines and words. A light line on a dark one is seen on every wood.

std::vector<ImVec2> on_screen(const ViewTransform& view, const std::vector<Point>& corners);
void draw_outline(Painter& painter, const std::vector<ImVec2>& points, float thickness, Shade shade,
                  ImDrawFlags flags);

/// The card's window and the patches that were read.
void draw_card_marks(Painter& painter, const ViewTransform& view, const Quad& card,
                     const std::vector<PatchReading>& patches);

enum class Handles { none, corners };
/// A region's outline with its name; with handles it is the one that hands hold.
void draw_region_mark(Painter& painter, const ViewTransform& view, const std::vector<Point>& corners,
                      std::string_view word, Handles handles);

/// Words on a dark plate whose lower left (or, to the right, lower right) corner is at (x, y).
void draw_tag(Painter& painter, float x, float y, std::string_view words, Align align);

}  // namespace tonemend
