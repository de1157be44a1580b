#pragma once

#include <optional>

#include "live/actions.h"
#include "live/painter.h"

namespace tonemend {

/// Every key and what it does, in place of the picture; measuring goes on. Each line can be pressed as its
/// key can; returns the one that was.
std::optional<Action> draw_keys_page(Painter& painter, const Box& box);

}  // namespace tonemend
