#include "live/screen_colours.h"

#include <cmath>

#include "colour/matrix3.h"
#include "colour/rgb_space.h"
#include "colour/srgb_curve.h"

namespace tonemend {
namespace {

XYZ colour_of(const Shade& shade) {
    const Vector3 linear{decode_srgb(shade.r / 255.0), decode_srgb(shade.g / 255.0),
                         decode_srgb(shade.b / 255.0)};
    const Vector3 xyz = rgb_to_xyz_d50(srgb) * linear;
    return {xyz[0], xyz[1], xyz[2]};
}

}  // namespace

Shade ScreenColours::shade_of(const XYZ& colour) const {
    const std::array<double, 3> code = table_.encode(colour);
    const auto byte = [](double value) { return static_cast<std::uint8_t>(std::lround(255 * value)); };
    return {byte(code[0]), byte(code[1]), byte(code[2])};
}

Shade ScreenColours::shade_of(const Lab& colour) const {
    return shade_of(to_xyz(colour, d50_icc));
}

Theme ScreenColours::theme_of(ThemeName name) const {
    Theme shown = theme(name);
    for (Shade* shade : {&shown.surround, &shown.plate, &shown.ink, &shown.faint, &shown.tube, &shown.bubble,
                         &shown.etch, &shown.touch, &shown.touch_hover, &shown.strong, &shown.strong_ink})
        *shade = shade_of(colour_of(*shade));
    return shown;
}

}  // namespace tonemend
