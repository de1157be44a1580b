#include "live/overlay_choice.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace tonemend {
namespace {

// Grain is evened out over this share of the picture's width.
constexpr double evenness_share = 1.0 / 16;

std::vector<LegendMark> marks_of(const std::vector<LegendStop>& stops, std::string_view pattern,
                                 double factor) {
    std::vector<LegendMark> marks;
    for (const LegendStop& stop : stops) {
        std::string words = fmt::format(fmt::runtime(pattern), factor * stop.value);
        if (words.starts_with('-')) words.replace(0, 1, "−");
        if (words.starts_with("+0")) words.erase(0, 1);
        marks.push_back({words, stop.colour});
    }
    return marks;
}

}  // namespace

std::string_view name(Overlay overlay) {
    switch (overlay) {
        case Overlay::none:
            return "overlay";
        case Overlay::difference:
            return "ΔE map";
        case Overlay::clipping:
            return "clipped";
        case Overlay::glare:
            return "glare";
        case Overlay::evenness:
            return "light";
        case Overlay::figure:
            return "figure";
        case Overlay::blend:
            return "blend";
    }
    return "";
}

Overlay next(Overlay overlay) {
    return overlay == Overlay::blend ? Overlay::none : static_cast<Overlay>(static_cast<int>(overlay) + 1);
}

OverlaySettings hold_overlay(Overlay overlay, const BenchState& state) {
    OverlaySettings settings;
    if (!state.calibration || (!state.comparison && overlay != Overlay::clipping)) return settings;
    settings.kind = overlay;
    if (!state.comparison) return settings;
    const Reading& original = state.comparison->original;
    settings.reference = original.ground;
    settings.difference_span = state.comparison->difference.de2000 < 3 ? 5 : 10;
    settings.glare = original.glare;
    settings.plane.level = to_xyz(original.lab, d50_icc).Y;
    settings.evenness_reach = std::max(1.0, evenness_share * state.frame->width);
    const Lab& repair = state.comparison->repair.lab;
    settings.blend_level = repair.L;
    // A repair is smaller than the picture, and so are its blotches.
    if (overlay == Overlay::blend) settings.evenness_reach = std::max(1.0, settings.evenness_reach / 3);
    if (original.split) settings.figure = gauge_figure(*original.split);
    return settings;
}

Legend legend_of(const OverlaySettings& overlay, const BenchState& state) {
    switch (overlay.kind) {
        case Overlay::none:
            return {};
        case Overlay::difference:
            return {"ΔE2000 from the original's ground",
                    marks_of(difference_legend(overlay.difference_span, 6), "{:.0f}", 1), true};
        case Overlay::clipping:
            return {"what no reading can use",
                    {{"too bright", clipped_bright_colour()}, {"too dark", clipped_dark_colour()}},
                    false};
        case Overlay::glare:
            return {"white light over the wood's own colour",
                    {{"none", amount_colour(0)}, {"counts as glare", amount_colour(1)}},
                    true};
        case Overlay::evenness:
            return {"light against the original, within one wood",
                    marks_of(departure_legend(overlay.evenness_span, 5), "{:+.0f} %", 100), true};
        case Overlay::figure:
            if (state.comparison && !state.comparison->original.split)
                return {"the original is plain: ground alone", {{"ground", ground_colour()}}, false};
            return {"as the original's reading tells them apart",
                    {{"ground", ground_colour()}, {"figure", figure_colour()}},
                    false};
        case Overlay::blend:
            return {"lighter or darker than the rest of the repair, in L*",
                    {{fmt::format("−{:.0f} has more", overlay.blend_span), departure_colour(-1)},
                     {"as the rest", departure_colour(0)},
                     {fmt::format("+{:.0f} needs more", overlay.blend_span), departure_colour(1)}},
                    true};
    }
    return {};
}

}  // namespace tonemend
