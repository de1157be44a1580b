#pragma once

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
inline constexpr Paint faint{0.66, 0.66, 0.66};
inline constexpr Paint shadow{0.05, 0.05, 0.05, 0.8};
inline constexpr Paint tube{0.36, 0.36, 0.36};
inline constexpr Paint bubble{0.82, 0.82, 0.82};
inline constexpr Paint accent{0.62, 0.76, 0.88};
}  // namespace panel_paint

/// panel_paint::background as an 8-bit grey.
inline constexpr std::uint8_t panel_grey = 48;
/// Narrower pictures get a panel of this width, in pixels.
inline constexpr int least_panel_width = 640;

/// Where the parts of the panel stand, in pixels below the picture.
struct PanelLayout {
    int width = 0, height = 0;
    double unit = 0;                    ///< the height of ordinary type
    std::vector<std::string> sentence;  ///< the next move, broken into lines
    std::vector<std::string> trust;     ///< the most harmful warning, likewise; or "reading good"
};

enum class Sign { always, only_minus };
/// One decimal with a true minus sign.
std::string signed_text(double value, Sign sign);

PanelLayout lay_out_panel(const Comparison& comparison, int width, double unit);

/// Draws verdict, next move, vials, the two colours and what can be trusted, `top` pixels below the canvas's
/// top edge.
void draw_panel(Canvas& canvas, const Comparison& comparison, const PanelLayout& layout, double top);

}  // namespace tonemend
