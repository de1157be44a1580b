#include "live/screen_picture.h"

#include <algorithm>
#include <cmath>

#include "colour/rgb_space.h"
#include "colour/srgb_curve.h"
#include "picture/linear_picture.h"

namespace tonemend {
namespace {

constexpr std::size_t steps = 4096;

}  // namespace

ScreenEncoder::ScreenEncoder(const Matrix3& to_xyz_d50) : table_(steps) {
    const Matrix3 matrix = inverse(rgb_to_xyz_d50(srgb)) * to_xyz_d50;
    for (std::size_t i = 0; i < 9; ++i) to_srgb_[i] = static_cast<float>(matrix.m[i / 3][i % 3]);
    // The table runs over the square root of light, where equal steps are nearly equal to the eye.
    for (std::size_t i = 0; i < steps; ++i) {
        const double root = static_cast<double>(i) / (steps - 1);
        table_[i] = static_cast<std::uint8_t>(std::lround(255 * encode_srgb(root * root)));
    }
}

void ScreenEncoder::operator()(const float* linear, std::uint8_t* encoded, std::size_t pixels) const {
    for (std::size_t i = 0; i < pixels; ++i, linear += 3, encoded += 3) {
        for (std::size_t c = 0; c < 3; ++c) {
            const float light = to_srgb_[3 * c] * linear[0] + to_srgb_[3 * c + 1] * linear[1] +
                                to_srgb_[3 * c + 2] * linear[2];
            const float root = std::sqrt(std::clamp(light, 0.0F, 1.0F));
            encoded[c] = table_[static_cast<std::size_t>(root * static_cast<float>(steps - 1) + 0.5F)];
        }
    }
}

bool shows_as_is(const Frame& frame) {
    return frame.type == SampleType::uint8;
}

std::vector<std::uint8_t> to_screen(const Frame& frame) {
    const ScreenEncoder encode(frame.encoding.to_xyz_d50);
    const auto row = static_cast<std::size_t>(frame.width) * 3;
    std::vector<std::uint8_t> encoded(row * static_cast<std::size_t>(frame.height));
    constexpr int band = 64;  // rows at a time, so that the floats stay few
    for (int y = 0; y < frame.height; y += band) {
        const LinearPicture part = linear_light(frame, {0, y, frame.width, std::min(band, frame.height - y)});
        encode(part.rgb.data(), encoded.data() + static_cast<std::size_t>(y) * row, part.rgb.size() / 3);
    }
    return encoded;
}

}  // namespace tonemend
