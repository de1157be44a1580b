#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "live/bench_state.h"
#include "live/overlay_colours.h"
#include "live/overlay_pixel.h"

namespace tonemend {

/// As its control says it: "overlay" (none), "ΔE map", "clipped", "glare", "light", "figure", "blend".
std::string_view name(Overlay overlay);
/// The one after it, round and round.
Overlay next(Overlay overlay);

/// What the overlay is held against in this state of the bench; kind none while there is nothing to hold it
/// against.
OverlaySettings hold_overlay(Overlay overlay, const BenchState& state);

/// One mark of a legend with its words.
struct LegendMark {
    std::string words;
    XYZ colour;
};

/// What the colours of an overlay mean.
struct Legend {
    std::string title;
    std::vector<LegendMark> marks;
    bool continuous = false;  ///< colours between the marks lie between their meanings
};
Legend legend_of(const OverlaySettings& overlay, const BenchState& state);

}  // namespace tonemend
