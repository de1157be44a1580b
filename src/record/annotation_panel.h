#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "measure/comparison.h"
#include "picture/canvas.h"

namespace tonemend {

/// Neutral paints: the wood's colour is the subject. One accent, a cool blue-grey far from any wood, for what
/// is to be done.
namespace panel_paint {
inline constexpr Paint background{0.188, 0.188, 0.188};  // L* near 20
inline constexpr Paint plate{0.188, 0.188, 0.188, 0.85};
inline constexpr Paint ink{0.93, 0.93, 0.93};
inline constexpr Paint faint{0.72, 0.72, 0.72};
inline constexpr Paint shadow{0.05, 0.05, 0.05, 0.8};
inline constexpr Paint tube{0.36, 0.36, 0.36};
inline constexpr Paint bubble{0.82, 0.82, 0.82};
inline constexpr Paint accent{0.62, 0.76, 0.88};
}  // namespace panel_paint

/// panel_paint::background as an 8-bit grey.
inline constexpr std::uint8_t panel_grey = 48;
/// Narrower pictures get a panel of this width, in pixels.
inline constexpr int least_panel_width = 640;
/// Ordinary type is 1 unit high, and the panel so many units wide: 390 pixels of a phone show it 11 high.
inline constexpr double panel_units = 36;
/// The smallest type, in units.
inline constexpr double small_print = 0.95;

struct PanelText {
    Point top_left;
    std::string text;
    TextStyle style;
};

/// Where the parts of the panel stand, in pixels from its top-left corner.
struct PanelLayout {
    int width = 0, height = 0;
    double unit = 0;
    std::vector<PanelText> texts;
    CanvasBox shape;                     ///< the verdict's shape
    std::array<CanvasBox, 3> tubes;      ///< of the vials
    std::array<CanvasBox, 2> colours{};  ///< original and repair, edge to edge
};

/// The panel of a comparison: verdict (UNFIT in its place where a warning makes the reading so), the next
/// move (there, the warning), three vials with their numbers, the two colours, every warning, and in small
/// print what was done about the light; empty: nothing.
PanelLayout lay_out_panel(const Comparison& comparison, int width, const std::string& light = {});

/// Draws it `top` pixels below the canvas's top edge. Arrows from bubble to middle mark the moves to make:
/// none where it matches or where the reading is unfit.
void draw_panel(Canvas& canvas, const Comparison& comparison, const PanelLayout& layout, double top);

}  // namespace tonemend
