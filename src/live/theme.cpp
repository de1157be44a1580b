#include "live/theme.h"

#include <algorithm>

#include "colour/srgb_curve.h"

namespace tonemend {
namespace {

constexpr Shade grey(std::uint8_t value) {
    return {value, value, value};
}

constexpr Theme light{.surround = grey(119),
                      .plate = grey(168),
                      .ink = grey(0),
                      .faint = grey(38),
                      .tube = grey(96),
                      .bubble = grey(236),
                      .etch = grey(16),
                      .touch = {176, 194, 210},
                      .touch_hover = {196, 212, 226},
                      .strong = {30, 58, 84},
                      .strong_ink = grey(255)};

constexpr Theme dark{.surround = grey(48),
                     .plate = grey(61),
                     .ink = grey(240),
                     .faint = grey(186),
                     .tube = grey(92),
                     .bubble = grey(214),
                     .etch = grey(255),
                     .touch = {62, 78, 92},
                     .touch_hover = {78, 96, 112},
                     .strong = {142, 178, 208},
                     .strong_ink = grey(0)};

double luminance(const Shade& shade) {
    const auto linear = [](std::uint8_t value) { return decode_srgb(value / 255.0); };
    return 0.2126 * linear(shade.r) + 0.7152 * linear(shade.g) + 0.0722 * linear(shade.b);
}

}  // namespace

const Theme& theme(ThemeName name) {
    return name == ThemeName::light ? light : dark;
}

double contrast(const Shade& one, const Shade& other) {
    const auto [low, high] = std::minmax({luminance(one), luminance(other)});
    return (high + 0.05) / (low + 0.05);
}

}  // namespace tonemend
