#include "live/texture_strip.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "colour/adaptation.h"
#include "colour/rgb_space.h"
#include "colour/srgb_curve.h"
#include "live/screen_picture.h"
#include "picture/linear_picture.h"

namespace tonemend {
namespace {

constexpr int most_width = 640, most_height = 96;

PixelRect middle_of(const Frame& frame, const Reading& reading, int width, int height) {
    const int x = static_cast<int>(std::lround(reading.centre.x)) - width / 2;
    const int y = static_cast<int>(std::lround(reading.centre.y)) - height / 2;
    return {std::clamp(x, 0, frame.width - width), std::clamp(y, 0, frame.height - height), width, height};
}

TextureStrip cut(const Frame& frame, const Calibration& calibration, const PixelRect& window) {
    const ChannelCurves curves = calibration.channel_curves();
    const LinearPicture picture = linear_light(frame, window, &curves);
    TextureStrip strip{window.width, window.height, std::vector<std::uint8_t>(picture.rgb.size())};
    const ScreenEncoder encode(calibration.to_xyz_d50);
    encode(picture.rgb.data(), strip.rgb.data(), picture.rgb.size() / 3);
    return strip;
}

}  // namespace

void cut_strips(const Frame& frame, const Calibration& calibration, const Reading& original,
                const Reading& repair, TextureStrip& original_strip, TextureStrip& repair_strip) {
    const PixelRect a = bounds(original.region), b = bounds(repair.region);
    const int width = std::min({most_width, a.width, b.width, frame.width});
    const int height = std::min({most_height, a.height, b.height, frame.height});
    if (width < 1 || height < 1) return;
    original_strip = cut(frame, calibration, middle_of(frame, original, width, height));
    repair_strip = cut(frame, calibration, middle_of(frame, repair, width, height));
}

}  // namespace tonemend
