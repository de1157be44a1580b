#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "live/actions.h"
#include "live/painter.h"

namespace tonemend {

/// How a control stands out.
enum class Weight { ordinary, chosen, main };

/// A control with its key printed on it. True when it was pressed.
bool draw_control(Painter& painter, const Box& box, Action action, std::string_view word, Weight weight);

/// Whether an ordinary control has room for all of `word`, in small type at least.
bool control_fits(const Painter& painter, const Box& box, Action action, std::string_view word);

/// The key's cap alone, its left edge at `x` and its middle at `y`; returns its width.
float draw_key_cap(Painter& painter, float x, float y, std::string_view key, ImFont* font, Shade ink);

}  // namespace tonemend
