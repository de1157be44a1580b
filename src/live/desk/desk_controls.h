#pragma once

#include <initializer_list>
#include <string_view>

#include "live/bench.h"
#include "live/painter.h"

namespace tonemend {

struct DeskControl {
    DeskKey key;
    std::string_view cap, word;
};

/// Whether what is drawn there was clicked; `id` tells it from the others of the page.
bool pressed_at(const Box& box, int id);
/// A line of a list: a click selects it, and one on the selected is Enter. Whether it was clicked.
bool clicked_line(Bench& bench, const Box& box, std::size_t line, bool selected);
/// A row of controls along the bottom, as many lines as they need; returns what is left of the box above.
Box draw_desk_controls(Painter& painter, const Box& box, std::initializer_list<DeskControl> controls,
                       Bench& bench);
/// What is typed, with a mark where the next letter goes.
void draw_field(Painter& painter, const Box& box, std::string_view text, bool typed_into);

}  // namespace tonemend
